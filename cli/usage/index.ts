// usage: the commands and their flags, with examples. Each command's work is loaded only when it is called.
export { adding } from './adding.ts';
export { addImporting } from './importing.ts';
export { addKeeping } from './keeping.ts';
export { addLooking } from './looking.ts';
export { addPhones } from './phones.ts';
export { addWriting } from './writing.ts';
