// Feeds written in a thread: the same bytes as without one, a web process that goes on answering meanwhile, and one
// writing for all who come after a change.
import { afterAll, describe, expect, test } from '@jest/globals';
import { FeedBuilder } from '../../src/calendar/feed-builder.service.js';
import { FeedMemory } from '../../src/calendar/feed-memory.service.js';
import { MOST_ENTRIES } from '../../src/calendar/feeds.calc.js';
import { fromPlain, toPlain } from '../../src/calendar/feed-plain.calc.js';
import { buildFeed } from '../../src/calendar/ics.calc.js';
import { fullFeed } from '../bench/feed-entries.js';
import { kittiwakeFeed } from '../support/calendar-entries.js';
import { lateness } from '../support/lateness.js';

const builder = new FeedBuilder();
afterAll(() => builder.onModuleDestroy());

describe('a feed written in a thread', () => {
  test('is that written without one, to the byte', async () => {
    const feed = kittiwakeFeed();
    expect(await builder.build(feed)).toBe(buildFeed(feed));
    expect(feed.entries.map(toPlain).map(fromPlain)).toEqual(feed.entries);
    expect(structuredClone(feed.entries.map(toPlain))).toEqual(feed.entries.map(toPlain));
  }, 60_000);

  test('of the most entries leaves the loop of events free, and holds no more than that', async () => {
    const feed = fullFeed(MOST_ENTRIES);
    await builder.build(kittiwakeFeed()); // the thread has begun
    buildFeed(fullFeed(50));
    let text = '';
    const there = await lateness(async () => {
      text = await builder.build({ ...feed, entries: [...feed.entries, ...fullFeed(9).entries] });
    });
    // written here, the loop is held for all of it
    const here = await lateness(async () => void expect(buildFeed(feed)).toBe(text));
    expect(text.match(/BEGIN:VEVENT/g)).toHaveLength(MOST_ENTRIES);
    expect(there.worst).toBeLessThan(here.worst / 2);
    expect(there.usual).toBeLessThan(here.worst / 5);
  }, 60_000);

  test('that cannot be written is an error, and breaks nothing else', async () => {
    const [entry] = kittiwakeFeed().entries;
    if (!entry) throw new Error('no entry');
    const nameless = { ...kittiwakeFeed(), entries: [{ ...entry, uid: '' }] };
    await expect(builder.build(nameless)).rejects.toThrow('UID');
    expect(await builder.build(kittiwakeFeed())).toBe(buildFeed(kittiwakeFeed()));
  }, 60_000);
});

describe('feeds kept in memory', () => {
  const counting = (text: string, etag = text) => {
    let writings = 0;
    const write = async () => {
      writings++;
      await new Promise((done) => setImmediate(done));
      return { etag, text };
    };
    return { write, count: () => writings };
  };

  test('are written once for all who come, at one moment or later', async () => {
    const memory = new FeedMemory();
    const { write, count } = counting('a');
    const came = await Promise.all(Array.from({ length: 50 }, () => memory.once('a', write)));
    expect(new Set(came.map(({ text }) => text))).toEqual(new Set(['a']));
    await memory.once('a', write);
    expect(count()).toBe(1);
    await memory.once('b', counting('b').write);
    expect(count()).toBe(1);
  });

  test('stand under the tag of what was written, not under the one that was asked for', async () => {
    const memory = new FeedMemory();
    const newer = counting('new text', 'new');
    expect(await memory.once('old', newer.write)).toEqual({ etag: 'new', text: 'new text' });
    await memory.once('new', newer.write);
    expect(newer.count()).toBe(1);
    await memory.once('old', newer.write);
    expect(newer.count()).toBe(2);
  });

  test('are forgotten, the oldest first, beyond sixteen million characters; what failed is never kept', async () => {
    const memory = new FeedMemory();
    const feeds = ['a', 'b', 'c'].map((letter) => counting(letter.repeat(6_000_000), letter));
    for (const [at, { write }] of feeds.entries()) await memory.once('abc'[at] ?? '', write);
    for (const at of [1, 2, 0]) await memory.once('abc'[at] ?? '', feeds[at]?.write as never);
    expect(feeds.map(({ count }) => count())).toEqual([2, 1, 1]);
    await expect(memory.once('x', () => Promise.reject(new Error('no')))).rejects.toThrow('no');
    expect((await memory.once('x', counting('x').write)).text).toBe('x');
  });
});
