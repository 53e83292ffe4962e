// The doors of the demo, to print and to keep in demo-links.json.
import type { INestApplicationContext } from '@nestjs/common';
import { AccountsService } from '../src/accounts/accounts.service.js';
import { feedPath, LinksService, PUBLIC_FEED } from '../src/accounts/links.service.js';
import type { Platform } from '../src/platform/platform.module.js';
import { SittingViews } from '../src/sittings/views.service.js';
import { StudiosService } from '../src/studios/studios.service.js';
import { TeachingViews } from '../src/teaching/views.service.js';
import { STORIES, STUDIO } from './kittiwake-yard.js';
import { STUDENT } from './teaching.js';

const SITTER =
  STORIES.find((story) => story.outcome.kind === 'confirmed' && story.outcome.week > 0)?.name ?? '';

export interface DemoLinks {
  base: string;
  publicPage: string;
  ownerSignIn: string;
  assistantSignIn: string;
  sitterPage: string;
  studentPage: string;
  ownerFeed: string;
  sitterFeed: string;
  assistantFeed: string;
  studentFeed: string;
  workshopsFeed: string;
  mailFolder: string;
}

/** @throws Error when the demo studio is not in the database */
export async function demoLinks(
  app: INestApplicationContext,
  platform: Platform,
  base: string,
  mailFolder: string,
): Promise<DemoLinks> {
  const links = app.get(LinksService);
  const studioId = await app.get(StudiosService).idAt(STUDIO.slug);
  const home = `${base}/s/${STUDIO.slug}`;
  const signUpId = await studentsSignUp(app, studioId);
  return platform.db.inStudio(studioId, async (tx) => {
    const studio = await app.get(StudiosService).load(tx);
    const owner = await app.get(AccountsService).owner(tx);
    const views = await app.get(SittingViews).inStates(tx, studio, ['confirmed']);
    const sitter = views.find((view) => view.contact.name === SITTER) ?? views.at(-1);
    if (!sitter) throw new Error('The demo has no confirmed sitting.');
    const place = await links.find(tx, 'place', sitter.sitting.id);
    const ownerFeed = await links.find(tx, 'feed', owner.id, 'owner');
    const sitterFeed = await links.find(tx, 'feed', sitter.contact.id, 'sitter');
    const student = await links.find(tx, 'place', signUpId);
    const assistantFeed = await links.ensure(tx, 'feed', owner.id, 'assistant');
    const signUp = await app.get(TeachingViews).own(tx, signUpId);
    const studentFeed = signUp && (await links.ensure(tx, 'feed', signUp.contact.id, 'student'));
    if (!place || !ownerFeed || !sitterFeed || !student || !studentFeed)
      throw new Error('The demo lacks a link.');
    return {
      base,
      publicPage: home,
      ownerSignIn: `${home}/sign-in`,
      assistantSignIn: `${home}/sign-in`,
      sitterPage: `${home}/place/${links.token(place)}`,
      studentPage: `${home}/student/${links.token(student)}`,
      ownerFeed: `${base}${feedPath(STUDIO.slug, links.token(ownerFeed))}`,
      sitterFeed: `${base}${feedPath(STUDIO.slug, links.token(sitterFeed))}`,
      assistantFeed: `${base}${feedPath(STUDIO.slug, links.token(assistantFeed))}`,
      studentFeed: `${base}${feedPath(STUDIO.slug, links.token(studentFeed))}`,
      workshopsFeed: `${base}${feedPath(STUDIO.slug, PUBLIC_FEED)}`,
      mailFolder,
    };
  });
}

/** The sign-up of the student whose page is shown. */
async function studentsSignUp(app: INestApplicationContext, studioId: string): Promise<string> {
  const views = app.get(TeachingViews);
  for (const { session } of (await views.all(studioId)).days) {
    const { signUps } = await views.session(studioId, session.id);
    const own = signUps.find(({ contact }) => contact.name === STUDENT);
    if (own) return own.signUp.id;
  }
  throw new Error('The demo has no student.');
}
