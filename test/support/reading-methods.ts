// Which methods of stores hand rows to whoever calls, read from the source.
import { readdirSync } from 'node:fs';
import { join } from 'node:path';

/** `Store.method` of all stores in src whose rows go back to the caller. */
export async function readingMethods(): Promise<string[]> {
  const src = join(import.meta.dirname, '../../src');
  const files = readdirSync(src, { recursive: true, encoding: 'utf8' }).filter((file) =>
    file.endsWith('.store.ts'),
  );
  const methods: string[] = [];
  for (const file of files.sort())
    for (const [name, one] of Object.entries((await import(join(src, file))) as Record<string, unknown>))
      if (typeof one === 'function' && name.endsWith('Store'))
        for (const method of Object.getOwnPropertyNames(one.prototype))
          if (method !== 'constructor' && /\btx\.(many|maybe|one)\(/.test(String(one.prototype[method])))
            methods.push(`${name}.${method}`);
  return methods;
}
