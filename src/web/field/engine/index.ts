// engine: everything that the field page does beside its screens. Storage on the phone, saving and signing entries,
// the fold over all of them, exchange with the logbook, files, drafts, updates. Knows no screens; what it needs of a
// browser is handed in.
export { browser } from './browser.ts';
export { createEngine } from './engine.ts';
export type { Outside } from './outside.ts';
export type * from './port.ts';
