// A thread that asks an address over and over, as many calendars at once would, and tells how many answers a second came.
import { Agent, request } from 'node:http';
import { parentPort, workerData } from 'node:worker_threads';

const { url, headers, status, count, clients } = workerData;
const agent = new Agent({ keepAlive: true, maxSockets: clients });

const ask = () =>
  new Promise((resolve, reject) => {
    const asked = request(url, { agent, headers }, (answer) => {
      answer.resume().on('end', () => {
        if (answer.statusCode === status) resolve();
        else reject(new Error(`${answer.statusCode} instead of ${status}`));
      });
    });
    asked.on('error', reject).end();
  });

let left = count;
const client = async () => {
  while (left-- > 0) await ask();
};
const began = performance.now();
await Promise.all(Array.from({ length: clients }, client));
parentPort.postMessage((1000 * count) / (performance.now() - began));
agent.destroy();
