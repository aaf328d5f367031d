// What is typed when figures are asked for, and how it is said that something in it is wrong.

/** As it is typed, whichever figures it is for; block, group and stem by label or id. */
export type FiguresTyped = Readonly<
  Partial<
    Record<
      | 'by'
      | 'block'
      | 'group'
      | 'since'
      | 'floor'
      | 'units'
      | 'rule'
      | 'formClass'
      | 'form'
      | 'stem'
      | 'smallEnd'
      | 'middle'
      | 'largeEnd'
      | 'trim'
      | 'taper'
      | 'half'
      | 'defects'
      | 'equation'
      | 'product'
      | 'grade'
      | 'gradeJumpButted'
      | 'length'
      | 'priceWithCull'
      | 'priceJumpButted'
      | 'stockedFrom'
      | 'stems'
      | 'buyers'
      | 'limit'
      | 'within'
      | 'period'
      | 'width'
      | 'perPercent'
      | 'above'
      | 'along'
      | 'feature'
      | 'legs'
      | 'adjust'
      | 'sinceSize'
      | 'point'
      | 'zone'
      | 'around'
      | 'radius'
      | 'classes',
      string | undefined
    >
  >
>;

export type Wrong = Readonly<{ ok: false; field: keyof FiguresTyped; value: string; remedy: string }>;
export type Read<T> = Readonly<{ ok: true; value: T }> | Wrong;

export function wrong(field: keyof FiguresTyped, value: string | undefined, remedy: string): Wrong {
  return { ok: false, field, value: value ?? '', remedy };
}
