// RFC 3339 in the one spelling that entries use: capital T and Z, an offset always, no leap second.

const pattern =
  /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])T(?:[01]\d|2[0-3]):[0-5]\d:[0-5]\d(?:\.\d{1,9})?(?:Z|[+-](?:[01]\d|2[0-3]):[0-5]\d)$/;

/** Whether the text is a date and time with offset that the calendar has. */
export function isTime(text: string): boolean {
  if (!pattern.test(text)) return false;
  const day = Number(text.slice(8, 10));
  return day <= 28 || day <= daysIn(Number(text.slice(0, 4)), Number(text.slice(5, 7)));
}

function daysIn(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}
