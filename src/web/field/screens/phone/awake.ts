// Keeps the screen on while somebody wants that and the page is in front (Screen Wake Lock, W3C).
import { useEffect } from 'preact/hooks';
import { useSetting } from '../context.ts';

export function canStayAwake(): boolean {
  return isSecureContext && 'wakeLock' in navigator;
}

/** Holds the screen on as the setting says. The phone lets go whenever the page is hidden, so it is asked again. */
export function useAwake(): void {
  const [wanted] = useSetting<boolean>('awake', false);
  useEffect(() => {
    if (!wanted || !canStayAwake()) return undefined;
    let lock: WakeLockSentinel | undefined;
    let here = true;
    const hold = () => {
      if (document.visibilityState !== 'visible') return;
      navigator.wakeLock.request('screen').then(
        (held) => {
          if (here) lock = held;
          else void held.release();
        },
        // Refused, for example when the battery is low: the screen then does as the phone does.
        () => {},
      );
    };
    hold();
    document.addEventListener('visibilitychange', hold);
    return () => {
      here = false;
      document.removeEventListener('visibilitychange', hold);
      void lock?.release();
    };
  }, [wanted]);
}
