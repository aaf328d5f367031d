// server: the logbook over HTTP, on this machine: API, map layers, reports, the start page. Everything that is
// answered is read from the log by the rooms below; nothing is decided here but who may ask.
export { type AppOptions, createApp } from './app.ts';
export type { Answered } from './environment.ts';
export { type Served, type ServeOptions, serve } from './serve.ts';
