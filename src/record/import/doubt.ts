// What is doubted about a file as a whole: a code, a sentence, where in the file, and the answers there are. A doubt that
// concerns a thousand lines is asked once.

export type Doubt = Readonly<{
  code: string;
  sentence: string;
  /** Where in the file: all that it concerns. */
  where: readonly string[];
  choices: readonly { answer: string; label: string }[];
}>;

/** Answers by the code of what was asked. */
export type Answers = ReadonlyMap<string, string>;

/** Collects doubts while a file is looked at, and gives the answers that there are to them. */
export type Doubting = Readonly<{
  /** The answer to this doubt, when it has a choice like that; else undefined, and the doubt stays open. */
  ask: (doubt: Doubt) => string | undefined;
  open: () => readonly Doubt[];
  answered: () => readonly string[];
  /** Answers to what was not asked, such as a misspelt code. */
  unasked: () => readonly string[];
}>;

export function doubting(answers: Answers): Doubting {
  const open: Doubt[] = [];
  const answered: string[] = [];
  const asked = new Set<string>();
  const ask = (doubt: Doubt): string | undefined => {
    const given = answers.get(doubt.code);
    asked.add(doubt.code);
    const choice = doubt.choices.find(({ answer }) => answer === given);
    if (choice === undefined) open.push(doubt);
    else answered.push(`${doubt.code}=${choice.answer}`);
    return choice?.answer;
  };
  const unasked = () =>
    [...answers].flatMap(([code, answer]) => (asked.has(code) ? [] : [`${code}=${answer}`]));
  return { ask, open: () => open, answered: () => answered, unasked };
}

/** "3 things (line 2, line 5, line 9)", the first few named. */
export function amount(where: readonly string[], noun: readonly [one: string, many: string]): string {
  const shown = where.slice(0, 3).join('; ');
  const said = `${where.length.toLocaleString('en-US')} ${where.length === 1 ? noun[0] : noun[1]}`;
  return `${said} (${shown}${where.length > 3 ? '; …' : ''})`;
}

/** " The same holds for 4 others (line 3; line 4; line 7; …)."; nothing where there are none. */
export function others(where: readonly string[]): string {
  return where.length < 2 ? '' : ` The same holds for ${amount(where.slice(1), ['other', 'others'])}.`;
}

export const asWritten = (label = 'it is right as it is written') => ({ answer: 'as-written', label });
