// A document to draw on, without a browser. Only what is used of it is typed here: the types of browsers would open
// their globals to all of the program.
import { parseHTML } from 'linkedom';

export type Surface = Readonly<{
  createElement: (tag: string) => Drawn;
  createElementNS: (namespace: string, tag: string) => Drawn;
}>;

export type Drawn = {
  readonly tagName: string;
  readonly outerHTML: string;
  innerHTML: string;
  textContent: string;
  querySelector: (selector: string) => Drawn | null;
  querySelectorAll: (selector: string) => Iterable<Drawn>;
  setAttribute: (name: string, value: string) => void;
  removeAttribute: (name: string) => void;
  prepend: (...elements: Drawn[]) => void;
  remove: () => void;
};

export function newSurface(): Surface {
  const parse = parseHTML as unknown as (html: string) => { document: Surface };
  return parse('<!doctype html><html><body></body></html>').document;
}
