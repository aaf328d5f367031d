// Asks the phone where it is, for a while, and averages what it says. Never in the way of saving: whatever goes wrong
// is a word to show.
import { useEffect, useRef, useState } from 'preact/hooks';
import { ageOf, type Fix, type Mean, mean, staleAfter } from './averaging.ts';

export type Trouble = 'denied' | 'unavailable' | 'slow' | 'insecure' | 'none';
export type Fixing = Readonly<{
  running: boolean;
  mean: Mean | undefined;
  trouble: Trouble | undefined;
  /** A fix from before was given and not used. */
  staleGiven: boolean;
  secondsLeft: number;
  start: () => void;
  stop: () => void;
}>;

const troubles: Readonly<Record<number, Trouble>> = { 1: 'denied', 2: 'unavailable', 3: 'slow' };
/** How long the first fix may take, milliseconds. */
const patience = 30_000;

/**
 * @param seconds how long fixes are averaged
 * @param clockAhead how far the phone's clock is known to be ahead, milliseconds
 * @param onMean called with every new mean
 */
export function useFixing(
  seconds: number,
  clockAhead: number | undefined,
  onMean: (mean: Mean) => void,
): Fixing {
  const [running, setRunning] = useState(false);
  const [best, setBest] = useState<Mean | undefined>(undefined);
  const [trouble, setTrouble] = useState<Trouble | undefined>(undefined);
  const [staleGiven, setStaleGiven] = useState(false);
  const [until, setUntil] = useState(0);
  const [, tick] = useState(0);
  const watch = useRef<number | undefined>(undefined);
  const fixes = useRef<Fix[]>([]);

  const stop = () => {
    if (watch.current !== undefined) navigator.geolocation.clearWatch(watch.current);
    watch.current = undefined;
    setRunning(false);
  };
  const taken = ({ coords, timestamp }: GeolocationPosition) => {
    if (ageOf(timestamp, Date.now(), clockAhead) > staleAfter) {
      setStaleGiven(true);
      return;
    }
    if (fixes.current.length === 0) setUntil(Date.now() + seconds * 1000);
    fixes.current.push({
      lat: coords.latitude,
      lon: coords.longitude,
      accuracy: coords.accuracy,
      at: timestamp,
    });
    const fresh = mean(fixes.current);
    setTrouble(undefined);
    setBest(fresh);
    if (fresh) onMean(fresh);
  };
  const start = () => {
    stop();
    fixes.current = [];
    setBest(undefined);
    setStaleGiven(false);
    const impossible = whyNot();
    setTrouble(impossible);
    if (impossible !== undefined) return;
    setRunning(true);
    setUntil(0);
    watch.current = navigator.geolocation.watchPosition(
      taken,
      ({ code }) => {
        if (fixes.current.length > 0) return;
        setTrouble(troubles[code] ?? 'unavailable');
        if (code === 1) stop();
      },
      { enableHighAccuracy: true, maximumAge: 0, timeout: patience },
    );
  };

  useEffect(() => {
    if (!running) return undefined;
    const timer = setInterval(() => {
      tick((count) => count + 1);
      if (until > 0 && Date.now() >= until) stop();
    }, 1000);
    return () => clearInterval(timer);
  }, [running, until]);
  useEffect(() => stop, []);

  const secondsLeft = until === 0 ? seconds : Math.max(0, Math.ceil((until - Date.now()) / 1000));
  return { running, mean: best, trouble, staleGiven, secondsLeft, start, stop };
}

function whyNot(): Trouble | undefined {
  if (!isSecureContext) return 'insecure';
  return 'geolocation' in navigator ? undefined : 'none';
}
