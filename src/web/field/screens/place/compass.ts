// The phone's own compass, where it gives one that knows where north is. Readings are magnetic.
import { useEffect, useRef, useState } from 'preact/hooks';
import { meanDirection } from './direction.ts';

export type Reading = Readonly<{
  degrees: number | undefined;
  tilted: boolean;
  trouble: 'none' | 'refused' | undefined;
}>;

type WithHeading = DeviceOrientationEvent & { readonly webkitCompassHeading?: number };
type AsksFirst = { requestPermission?: () => Promise<'granted' | 'denied'> };

/** Beyond this much tilt the upper edge no longer points along the ground. Degrees. */
const flat = 30;
/** How many readings a shown value is the mean of. */
const kept = 15;
/** How long to wait for a first reading, milliseconds. */
const patience = 3000;

/** Reads the compass while `on`. The azimuth is that of the phone's upper edge, 0 to below 360 degrees, magnetic. */
export function useCompass(on: boolean): Reading {
  const [reading, setReading] = useState<Reading>({ degrees: undefined, tilted: false, trouble: undefined });
  const latest = useRef<number[]>([]);

  useEffect(() => {
    if (!on) return undefined;
    latest.current = [];
    setReading({ degrees: undefined, tilted: false, trouble: undefined });
    const look = (event: WithHeading) => {
      const heading = headingOf(event);
      if (heading === undefined) return;
      latest.current = [...latest.current.slice(1 - kept), heading];
      const tilted = Math.abs(event.beta ?? 0) > flat || Math.abs(event.gamma ?? 0) > flat;
      setReading({ degrees: meanDirection(latest.current), tilted, trouble: undefined });
    };
    const names = ['deviceorientationabsolute', 'deviceorientation'] as const;
    let here = true;
    void allowed().then((granted) => {
      if (!here) return;
      if (!granted) setReading({ degrees: undefined, tilted: false, trouble: 'refused' });
      else for (const name of names) addEventListener(name, look as EventListener);
    });
    const timer = setTimeout(() => {
      if (latest.current.length === 0) setReading((old) => ({ ...old, trouble: old.trouble ?? 'none' }));
    }, patience);
    return () => {
      here = false;
      clearTimeout(timer);
      for (const name of names) removeEventListener(name, look as EventListener);
    };
  }, [on]);
  return reading;
}

/** Some phones ask the person first, and only after a touch. */
async function allowed(): Promise<boolean> {
  if (typeof DeviceOrientationEvent === 'undefined') return true;
  const asks = DeviceOrientationEvent as unknown as AsksFirst;
  if (asks.requestPermission === undefined) return true;
  return asks.requestPermission().then(
    (answer) => answer === 'granted',
    () => false,
  );
}

/** Device Orientation (W3C): alpha turns anticlockwise from north when absolute; some browsers give a heading instead. */
function headingOf(event: WithHeading): number | undefined {
  const turn = screen.orientation?.angle ?? 0;
  if (event.webkitCompassHeading !== undefined) return (event.webkitCompassHeading + turn) % 360;
  if (!event.absolute || event.alpha === null) return undefined;
  return (360 - event.alpha + turn + 360) % 360;
}
