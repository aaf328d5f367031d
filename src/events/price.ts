// Price lists as somebody gave them. A price holds for one rule, one unit, one day and one class of buyer.
import { PRICE_UNITS, type PriceUnit, VOLUME_RULES, type VolumeRule } from '../measure/index.ts';
import { choice, decimalNumber, label, species, text } from './fields.ts';
import { many, optional, row } from './form.ts';
import { defineKind } from './kind.ts';

const price = {
  species: species('Species.', 'northern red oak'),
  product: label('Product, in the words of the list.', 'sawlog'),
  grade: optional(label('Grade, in the words of the list.', 'F1')),
  price: decimalNumber('Price of one unit; below zero when taking it is paid for.', '450.00'),
};

export const pricesSet = defineKind({
  type: 'prices-set',
  chapter: 'Samples and prices',
  title: 'Prices set',
  help: 'A price list, all of it. Volumes by another rule have no price in it. A later list for the same rule and buyers replaces it.',
  fields: {
    rule: choice(
      VOLUME_RULES as readonly [VolumeRule, ...VolumeRule[]],
      'By which rule the volumes are scaled that it is for.',
    ),
    unit: choice(PRICE_UNITS as readonly [PriceUnit, ...PriceUnit[]], 'What one price is for.'),
    currency: label('Currency, as three letters (ISO 4217).', 'USD'),
    date: label('The day that the list is of, as written on it.', '2026-03-01'),
    buyerClass: label('Who pays it and where: stumpage, mill delivered, firewood.', 'mill delivered'),
    rows: many(
      row(
        price,
        'The prices, one after the other.',
        'northern red oak, sawlog, F1, 450; northern red oak, sawlog, F2, 320',
      ),
    ),
    note: optional(text('Where the list comes from.', 'mill sheet by mail')),
  },
  example: {
    rule: 'doyle',
    unit: 'Mbf',
    currency: 'USD',
    date: '2026-03-01',
    buyerClass: 'mill delivered',
    rows: 'northern red oak, sawlog, F1, 450; northern red oak, sawlog, F2, 320',
  },
});
