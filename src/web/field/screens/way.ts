// Which screen is shown: it stands in the address after "#/", so that the phone's own way back works and a reload
// comes back to the same place.
import { useEffect, useState } from 'preact/hooks';

export const screenNames = [
  'today',
  'group',
  'more',
  'mark',
  'felled',
  'rot',
  'cleared',
  'tag',
  'check',
  'hazard',
  'gone',
  'damage',
  'protect',
  'stake',
  'plan',
  'close',
  'note',
  'photo',
  'saved',
  'entry',
  'strike',
  'emergency',
  'sending',
  'pair',
  'files',
  'forget',
  'settings',
] as const;
export type ScreenName = (typeof screenNames)[number];

export type Way = Readonly<{ screen: ScreenName; about: Readonly<Record<string, string>> }>;

/** Reads the part of an address after "#". A pairing code from a scanned address leads to pairing. */
function readWay(fragment: string): Way {
  const text = fragment.replace(/^#/, '');
  if (text.startsWith('code='))
    return { screen: 'pair', about: Object.fromEntries(new URLSearchParams(text)) };
  const [name = '', query = ''] = text.replace(/^\//, '').split('?');
  const screen = screenNames.find((one) => one === name) ?? 'today';
  return { screen, about: Object.fromEntries(new URLSearchParams(query)) };
}

/** Goes to a screen. Today is where every way ends, so it leaves no other screen behind it. */
export function go(screen: ScreenName, about: Readonly<Record<string, string>> = {}): void {
  const query = new URLSearchParams(about).toString();
  location.hash = `/${screen}${query === '' ? '' : `?${query}`}`;
}

/** The same without a step to come back to: for a screen whose work is done. */
export function goInstead(screen: ScreenName, about: Readonly<Record<string, string>> = {}): void {
  const query = new URLSearchParams(about).toString();
  history.replaceState(null, '', `#/${screen}${query === '' ? '' : `?${query}`}`);
  dispatchEvent(new HashChangeEvent('hashchange'));
}

export function useWay(): Way {
  const [way, setWay] = useState(() => readWay(location.hash));
  useEffect(() => {
    const look = () => setWay(readWay(location.hash));
    addEventListener('hashchange', look);
    return () => removeEventListener('hashchange', look);
  }, []);
  return way;
}
