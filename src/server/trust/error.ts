/** A certificate or key that cannot be used; the sentence names the file and the remedy. */
export class TrustError extends Error {
  constructor(sentence: string) {
    super(sentence);
    this.name = 'TrustError';
  }
}
