// exchange: sending what waits and reading what is new, in one go, alone among the windows, and again by itself.
// Whatever is lost on the way is sent once more: the logbook knows every entry by its id.

export { askOnce } from './asking.ts';
export { type Line, readLine, takeLines } from './lines.ts';
export { signed } from './outbox.ts';
export { type Exchanging, exchangeIn } from './running.ts';
