// Another function in a method's place, also where no runner of tests is.

/** @returns what puts the method back as it was */
export function instead<T extends object, K extends keyof T>(
  object: T,
  name: K,
  make: (was: T[K]) => T[K],
): () => void {
  const own = Object.getOwnPropertyDescriptor(object, name);
  object[name] = make(object[name]);
  return () => {
    if (own) Object.defineProperty(object, name, own);
    else delete object[name];
  };
}
