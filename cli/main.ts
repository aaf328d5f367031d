// gapledger: where the command line starts. The version is answered before anything else is loaded.
declare const GAPLEDGER_VERSION: string;

const words = process.argv.slice(2);
if (words.length === 1 && (words[0] === '--version' || words[0] === '-V')) {
  process.stdout.write(`gapledger ${GAPLEDGER_VERSION}\n`);
} else {
  void import('./program.ts').then(async ({ run }) => {
    process.exitCode = await run(words, GAPLEDGER_VERSION);
  });
}
