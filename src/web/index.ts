// web: the pages. field/ is the page on the phone: it keeps entries without a signal, folds them itself and
// exchanges them with the logbook. Knows events, log/entry, stand, felling, measure and place, and talks HTTP.
// It is built by Vite from field/index.html; no other room imports it, so nothing goes out by this door.
export {};
