// Gift vouchers: those that are open, used and run out; using one on a request by its number; and what a surprise
// holds back, with the button by which they may know.
import type { ComponentChildren } from 'preact';
import type { StaffVisit } from '../../accounts/visits.service.js';
import { counted, dayInWords } from '../../lib/words.js';
import { Button } from '../../platform/html/kit/button.js';
import { CheckboxGroup, SelectField } from '../../platform/html/kit/choices.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { Card, Facts } from '../../platform/html/kit/facts.js';
import { Form, TextField } from '../../platform/html/kit/form.js';
import { Tag } from '../../platform/html/kit/notices.js';
import type { FieldProblem } from '../../platform/problems.js';
import type { SittingView } from '../../sittings/sittings.schemas.js';
import { STATE_WORDS } from '../../sittings/words.calc.js';
import type { Voucher } from '../../vouchers/vouchers.schemas.js';
import { hasRunOut, type VoucherList } from '../../vouchers/vouchers.service.js';
import type { Notice } from '../frame.pages.js';
import { deskPath, PlatesFrame } from './frame.pages.js';

export interface VouchersProps {
  visit: StaffVisit;
  list: VoucherList;
  /** How many letters are held back, by request. */
  held: Map<string, number>;
  /** Which form is open: 'new', a voucher's id, or ''. */
  form: string;
  /** The request that a voucher is to be used on; '' where none is chosen. */
  request: string;
  notice?: Notice | undefined;
  /** A form that was sent wrong: 'new', 'use' or a voucher's id. */
  sent?: { form: string; values: Record<string, unknown>; errors: FieldProblem[] } | undefined;
}

const VOUCHERS = '/vouchers';

export function VouchersPage(props: VouchersProps) {
  const { visit, list, form, notice, sent } = props;
  const open = list.vouchers.filter((one) => !one.used);
  const used = list.vouchers.filter((one) => one.used);
  return (
    <PlatesFrame visit={visit} title="Gift vouchers" at={VOUCHERS} notice={notice} errors={sent?.errors}>
      <p>
        {open.length === 0
          ? 'No voucher is open.'
          : `${open.length === 1 ? 'One voucher is' : `${open.length} vouchers are`} not used yet.`}{' '}
        What one is worth is a note; no money is reckoned here.
      </p>
      {open.length > 0 && (form === '' || sent?.form === 'use') && <UseForm {...props} />}
      {form === 'new' ? (
        <Card title="A new voucher">
          <VoucherForm {...props} voucher={null} />
        </Card>
      ) : (
        <p class="alone">
          <a href={`${deskPath(visit, VOUCHERS)}?form=new#form`}>A new voucher</a>
        </p>
      )}
      {open.length > 0 && <h2>Not used yet</h2>}
      {open.map((one) => (
        <OneVoucher key={one.id} {...props} voucher={one} />
      ))}
      {used.length > 0 && <h2>Used</h2>}
      {used.map((one) => (
        <OneVoucher key={one.id} {...props} voucher={one} />
      ))}
    </PlatesFrame>
  );
}

const requestInWords = ({ contact, sitters, sitting }: SittingView) => {
  const others = sitters.map((one) => one.name).filter((name) => name !== contact.name);
  return `${contact.name}${others.length > 0 ? ` (for ${others.join(', ')})` : ''}, ${STATE_WORDS[sitting.state]}`;
};

function UseForm({ visit, list, request, sent }: VouchersProps) {
  const mine = sent?.form === 'use' ? sent : undefined;
  return (
    <Card title="Use a voucher on a request">
      <Form
        action={deskPath(visit, `${VOUCHERS}/use`)}
        csrf={visit.formToken}
        label="Use a voucher on a request"
        values={mine?.values ?? { request }}
        errors={mine?.errors ?? []}
      >
        <TextField name="number" label="The number on the voucher" width="short" autocomplete="off" />
        <SelectField
          name="request"
          label="The request"
          options={list.requests.map((view) => ({ value: view.sitting.id, label: requestInWords(view) }))}
        />
        {mine?.errors.some((one) => one.field === 'anyway') && (
          <CheckboxGroup
            name="anyway"
            label="It has run out"
            options={[{ value: 'yes', label: 'Honour it all the same' }]}
          />
        )}
        <Button>Use this voucher</Button>
      </Form>
    </Card>
  );
}

function OneVoucher(props: VouchersProps & { voucher: Voucher }) {
  const { visit, list, form, voucher } = props;
  const { id, number, used } = voucher;
  const on = used && list.usedOn.get(used.sittingId);
  return (
    <section class="card" id={`voucher-${id}`}>
      <h3>
        No. {number} {!used && hasRunOut(voucher, list.today) && <Tag tone="warn">run out</Tag>}
        {voucher.surprise && <Tag tone="note">{voucher.toldAt ? 'they know now' : 'a surprise'}</Tag>}
      </h3>
      <Facts items={factsOf(voucher)} />
      {used && (
        <p>
          Used on {dayInWords(used.on)}
          {on && (
            <>
              {' '}
              on the request of <a href={deskPath(visit, `/requests/${used.sittingId}`)}>{on.contact.name}</a>
            </>
          )}
          .
        </p>
      )}
      {on && <Held {...props} on={on} />}
      {used && (
        <Press visit={visit} id={id} number={number} act="back">
          Take the use back
        </Press>
      )}
      {form === id ? (
        <VoucherForm {...props} />
      ) : (
        <p class="alone">
          <a href={`${deskPath(visit, VOUCHERS)}?form=${id}#form`}>
            Change this<span class="unseen">: No. {number}</span>
          </a>
        </p>
      )}
    </section>
  );
}

/** What a surprise holds back of the messages about a request, and whom they would go to. */
function Held({ visit, voucher, held, on }: VouchersProps & { voucher: Voucher; on: SittingView }) {
  if (!voucher.surprise || voucher.toldAt) return null;
  const count = held.get(on.sitting.id) ?? 0;
  return (
    <div>
      <p>
        No message about this request goes to {on.contact.name}, by mail or by telephone, before you say so.{' '}
        {count === 0 ? 'None is held back so far' : `${counted(count, 'message')} held back so far`}; offers
        run out all the same.
      </p>
      <Press visit={visit} id={voucher.id} number={voucher.number} act="told">
        They may know now{count > 0 && ', send the newest'}
      </Press>
    </div>
  );
}

interface PressProps {
  visit: StaffVisit;
  id: string;
  number: string;
  act: 'back' | 'told';
  children: ComponentChildren;
}

function Press({ visit, id, number, act, children }: PressProps) {
  return (
    <Form
      action={deskPath(visit, `${VOUCHERS}/${id}/${act}`)}
      csrf={visit.formToken}
      label={`${act === 'told' ? 'They may know now' : 'Take the use back'}: No. ${number}`}
    >
      <Button kind="quiet">
        {children}
        <span class="unseen">: No. {number}</span>
      </Button>
    </Form>
  );
}

const factsOf = ({ buyer, buyerReach, forWhom, worth, validUntil }: Voucher) => [
  { term: 'Bought by', detail: buyerReach === '' ? buyer : `${buyer}, ${buyerReach}` },
  ...(forWhom === '' ? [] : [{ term: 'For', detail: forWhom }]),
  ...(worth === '' ? [] : [{ term: 'Worth', detail: worth }]),
  { term: 'Good until', detail: validUntil ? dayInWords(validUntil) : 'no end' },
];

function VoucherForm({ visit, list, sent, voucher }: VouchersProps & { voucher: Voucher | null }) {
  const id = voucher?.id ?? 'new';
  const mine = sent?.form === id ? sent : undefined;
  return (
    <div id="form">
      <Form
        action={deskPath(visit, `${VOUCHERS}/${id}`)}
        csrf={visit.formToken}
        label={voucher ? `Change: No. ${voucher.number}` : 'A new voucher'}
        values={mine?.values ?? (voucher ? answersOf(voucher) : { number: list.nextNumber })}
        shown={voucher ? answersOf(voucher) : undefined}
        errors={mine?.errors ?? []}
      >
        <TextField name="number" label="Number" width="short" autocomplete="off" />
        <TextField name="buyer" label="Who bought it" />
        <TextField
          name="buyerReach"
          label="How the buyer is reached"
          hint="A telephone number or an address."
          optional
        />
        <TextField name="forWhom" label="For whom" optional />
        <TextField name="worth" label="What it is worth" hint="Like “one whole plate”." optional />
        <DateField name="validUntil" label="Good until" value={voucher?.validUntil ?? undefined} optional />
        <CheckboxGroup
          name="surprise"
          label="A surprise"
          options={[
            {
              value: 'yes',
              label: 'Tell whoever sits nothing before I say so',
              hint: 'Holds back every message about the request it is used on. What went before is not called back; leave this empty where the buyer asks and hears from us.',
            },
          ]}
          optional
        />
        <Button>{voucher ? 'Change this voucher' : 'Write it down'}</Button>
      </Form>
    </div>
  );
}

export const answersOf = ({ number, buyer, buyerReach, forWhom, worth, validUntil, surprise }: Voucher) => ({
  number,
  buyer,
  buyerReach,
  forWhom,
  worth,
  validUntil: validUntil?.toString() ?? '',
  surprise: surprise ? 'yes' : '',
});
