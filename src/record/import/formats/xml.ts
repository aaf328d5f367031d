// XML as a small tree, read strictly and once through. A document type is refused: no GPX or KML file has one, and the
// entities that it could declare grow without bound.
import { SaxesParser } from 'saxes';
import { ImportRefusal, limits } from '../source.ts';

export type Element = {
  /** Without its prefix. */
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Element[];
  text: string;
};

const mostElements = 5_000_000;

/** @throws ImportRefusal for what is no well-formed XML, has a document type, or is nested too deeply */
export function readXml(text: string): Element {
  const open: Element[] = [{ name: '', attributes: {}, children: [], text: '' }];
  let elements = 0;
  const parser = new SaxesParser<{ xmlns: false; position: true }>({ xmlns: false, position: true });
  parser.on('error', (error) => {
    throw new ImportRefusal('file', '', `is no well-formed XML (${error.message})`);
  });
  parser.on('doctype', () => {
    throw new ImportRefusal(
      'file',
      '',
      'has a document type (<!DOCTYPE>), which could declare entities without bound; take it out',
    );
  });
  parser.on('opentag', ({ name, attributes }: { name: string; attributes: Record<string, string> }) => {
    elements += 1;
    if (open.length > limits.xmlDepth || elements > mostElements)
      throw new ImportRefusal(
        'file',
        '',
        `is nested deeper than ${limits.xmlDepth} elements, or holds too many`,
      );
    const element = { name: withoutPrefix(name), attributes, children: [], text: '' };
    open.at(-1)?.children.push(element);
    open.push(element);
  });
  parser.on('closetag', () => {
    open.pop();
  });
  const add = (written: string) => {
    const element = open.at(-1);
    if (element) element.text += written;
  };
  parser.on('text', add);
  parser.on('cdata', add);
  parser.write(text.trimStart()).close();
  const [document] = open;
  const root = document?.children[0];
  if (root === undefined) throw new ImportRefusal('file', '', 'holds no XML element');
  return root;
}

function withoutPrefix(name: string): string {
  return name.slice(name.indexOf(':') + 1);
}

/** The text of the first child of that name, without space around it. */
export function childText(element: Element, name: string): string | undefined {
  const text = element.children.find((child) => child.name === name)?.text.trim();
  return text === '' ? undefined : text;
}

export function childrenOf(element: Element, name: string): Element[] {
  return element.children.filter((child) => child.name === name);
}

/** All elements of these names, however deep. */
export function* within(element: Element, names: ReadonlySet<string>): Generator<Element> {
  for (const child of element.children) {
    if (names.has(child.name)) yield child;
    else yield* within(child, names);
  }
}

/** What the first characters tell of the kind of XML: the name of its root element. */
export function rootName(text: string): string | undefined {
  const start = text.slice(0, 4000).replaceAll(/<\?[^>]*\?>|<!--[\s\S]*?-->|<![^>]*>/g, '');
  return /<(?:[\w.-]+:)?([\w.-]+)/.exec(start)?.[1];
}
