// A line to the database that can be cut, as when the server goes down or the network does.
import { once } from 'node:events';
import { type AddressInfo, connect, createServer, type Socket } from 'node:net';

export interface CutLine {
  /** The database's address by way of this line. */
  url: string;
  /** Ends every connection and refuses new ones. */
  cut(): Promise<void>;
  restore(): Promise<void>;
}

export async function cutLine(databaseUrl: string): Promise<CutLine> {
  const to = new URL(databaseUrl);
  const ends = new Set<Socket>();
  const server = createServer((near) => {
    const far = connect(Number(to.port), to.hostname);
    for (const [one, other] of [
      [near, far],
      [far, near],
    ] as const) {
      ends.add(one);
      one.pipe(other);
      one
        .on('error', () => {})
        .on('close', () => {
          ends.delete(one);
          other.destroy();
        });
    }
  });
  await once(server.listen(0, '127.0.0.1'), 'listening');
  const { port } = server.address() as AddressInfo;
  const url = new URL(databaseUrl);
  url.hostname = '127.0.0.1';
  url.port = String(port);
  return {
    url: url.href,
    async cut() {
      const closed = once(server.close(), 'close');
      for (const end of ends) end.destroy();
      await closed;
    },
    async restore() {
      await once(server.listen(port, '127.0.0.1'), 'listening');
    },
  };
}
