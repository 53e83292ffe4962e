// Contacts and sitters, for the features that book them. Its methods take the caller's transaction.
import { Injectable } from '@nestjs/common';
import { Clock, Random } from '../platform/clock.js';
import type { Tx } from '../platform/db/tx.js';
import type { Contact, ContactAndSitters, Sitter, TravelShown } from './people.schemas.js';
import { NO_PLAN } from '../travel/plan.schemas.js';
import { PeopleStore } from './people.store.js';

/** Nothing is known of their own plans yet. */
export type NewContact = Omit<Contact, 'id' | 'postcode' | 'plan' | 'remindersStoppedAt'>;

@Injectable()
export class PeopleService {
  private readonly store = new PeopleStore();

  constructor(
    private readonly clock: Clock,
    private readonly random: Random,
  ) {}

  /** Enters a contact and the people who will sit, in the order given; adults, where no age band is said. */
  async enter(
    tx: Tx,
    input: NewContact,
    names: string[],
    bands: Sitter['ageBand'][] = [],
  ): Promise<{ contact: Contact; sitters: Sitter[] }> {
    const contact: Contact = {
      id: this.random.id(),
      postcode: '',
      plan: NO_PLAN,
      remindersStoppedAt: null,
      ...input,
    };
    const sitters = names.map((name, at) => ({
      id: this.random.id(),
      name,
      ageBand: bands[at] ?? ('adult' as const),
      headRest: true,
    }));
    await this.store.insert(tx, contact, sitters, this.clock.now());
    return { contact, sitters };
  }

  /** How people hold still, by sitter; those of other contacts are not touched. */
  async setPose(
    tx: Tx,
    contactId: string,
    poses: Pick<Sitter, 'id' | 'ageBand' | 'headRest'>[],
  ): Promise<void> {
    await this.store.setPose(tx, contactId, poses);
  }

  /**
   * Where a contact travels from and what they say of the journey; it holds for all that they come for.
   * @returns whether their calendar shows it
   */
  async setJourney(
    tx: Tx,
    contactId: string,
    journey: Pick<Contact, 'home' | 'postcode' | 'plan'>,
  ): Promise<boolean> {
    await this.store.setJourney(tx, contactId, journey);
    return this.store.reviseTravel(tx, contactId, this.clock.now());
  }

  /** Whether a contact is reminded of places; the same for others of the same e-mail address. */
  async setReminders(tx: Tx, contact: Pick<Contact, 'id' | 'email'>, wanted: boolean): Promise<void> {
    await this.store.setReminders(tx, contact, wanted ? null : this.clock.now());
  }

  /** What letters and calendars say to them from now on. */
  async setLanguage(tx: Tx, contactId: string, language: Contact['language']): Promise<void> {
    await this.store.setLanguage(tx, contactId, language);
    await this.store.reviseTravel(tx, contactId, this.clock.now());
  }

  /** Puts a contact right, and the names of those they ask for. */
  async correct(tx: Tx, contact: Contact, sitters: Pick<Sitter, 'id' | 'name'>[]): Promise<void> {
    await this.store.correct(tx, contact, sitters);
    await this.store.reviseTravel(tx, contact.id, this.clock.now());
  }

  travelShown(tx: Tx, contactId: string): Promise<TravelShown> {
    return this.store.travelShown(tx, contactId);
  }

  /** Journeys as entries of their calendar, or none any more. @returns false when it is so already */
  showTravel(tx: Tx, contactId: string, shown: boolean): Promise<boolean> {
    return this.store.showTravel(tx, contactId, shown, this.clock.now());
  }

  /** Takes contacts away, as if they had never been entered; nothing may hang on them any more. */
  async remove(tx: Tx, ids: string[]): Promise<void> {
    await this.store.remove(tx, ids);
  }

  contact(tx: Tx, id: string): Promise<Contact> {
    return this.store.contact(tx, id);
  }

  contacts(tx: Tx, ids: string[]): Promise<Map<string, Contact>> {
    return this.store.contacts(tx, ids);
  }

  /** The same with those they ask for. */
  withSitters(tx: Tx, ids: string[]): Promise<Map<string, ContactAndSitters>> {
    return this.store.withSitters(tx, ids);
  }
}
