// What a generated page is, and the bits of Markdown that pages share.

/** A file under docs/reference and what stands in it. */
export type Page = Readonly<{ path: string; text: string }>;

/** A table; cells are Markdown, a pipe in them is escaped. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

/** Text as code, whatever quotes it holds. */
export function code(text: string): string {
  return text.includes('`') ? `\`\` ${text} \`\`` : `\`${text}\``;
}

/** How a field is called on the command line: `stumpHeight` is `stump-height`. */
export function kebab(name: string): string {
  return name.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

/** A word of a shell command, quoted where a shell needs it. */
export function shellWord(text: string): string {
  return /^[\w./:@%+-]+$/.test(text) ? text : `'${text.replaceAll("'", String.raw`'\''`)}'`;
}
