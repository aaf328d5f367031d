// One thing after the other: what is awaited in between must not mix two requests.

/** Makes a queue: each work begins when the one before it is over, however that ended. */
export function turns(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const done = last.then(work);
    last = done.catch(() => undefined);
    return done;
  };
}
