import { counted } from '../../lib/words.js';
import { SelectField } from '../../platform/html/kit/choices.js';
import { DateField } from '../../platform/html/kit/date-field.js';
import { NumberField, TextArea, TextField } from '../../platform/html/kit/form.js';
import { AmountField } from './amounts.pages.js';
import { shelfPath } from './frame.pages.js';
import { oneOf } from './words.calc.js';
import { type ActProps, Act, ClassField } from './lot-act.pages.js';

export function LiveActs(props: ActProps) {
  const { item, lot } = props.view;
  const one = oneOf(item);
  return (
    <>
      <Act {...props} act="take" label="Take some" button="Take it" kind="quiet">
        <AmountField name="take-quantity" label="How much is taken?" unit={item.unit} />
        <TextField name="take-reason" label="What for?" width="full" optional />
      </Act>
      {lot.openedOn === null && item.kind !== 'glass' && (
        <Act
          {...props}
          act="open"
          label={`Open this ${one}`}
          button={`It is opened today`}
          kind="quiet"
          folded
        >
          <p>
            {item.openedLifeDays === null
              ? 'It keeps as long as before.'
              : `Once opened it keeps ${counted(item.openedLifeDays, 'day')}, and no longer than before.`}
          </p>
        </Act>
      )}
      {lot.state === 'good' ? (
        <Act
          {...props}
          act="suspect"
          label="Something is wrong with it"
          button="Put it aside"
          kind="danger"
          folded
        >
          <p>
            It gives nothing any more until it is found good; what was set aside of it is looked for
            elsewhere.
          </p>
          <TextField name="suspect-note" label="What was seen?" width="full" />
          {(item.unit === 'uL' || item.unit === 'mg') && (
            <p>
              Plates went wrong with it?{' '}
              <a href={`${shelfPath(props.visit, '/baths/off')}?what=bottle:${lot.id}`}>
                Put it aside and see whom it concerns
              </a>
              .
            </p>
          )}
        </Act>
      ) : (
        <Act {...props} act="good" label="It is good after all" button="It is good" kind="quiet" />
      )}
      {(item.unit === 'uL' || item.unit === 'mg') && <PouringActs {...props} />}
      <Act
        {...props}
        act="discard"
        label="Throw it away"
        button="All of it is thrown away"
        kind="danger"
        folded
      >
        <TextField name="discard-reason" label="Why?" width="full" optional />
      </Act>
    </>
  );
}

/** For what is poured or weighed. */
function PouringActs(props: ActProps) {
  const { item, lot, others, solvents } = props.view;
  return (
    <>
      <Act
        {...props}
        act="decant"
        label="Pour some off into a new bottle"
        button="Pour it off"
        kind="quiet"
        folded
      >
        <AmountField name="decant-quantity" label="How much is poured off?" unit={item.unit} />
        <TextField name="decant-label" label="Name of the new bottle" width="medium" />
      </Act>
      {others.length > 0 && (
        <Act
          {...props}
          act="blend"
          label="Blend with others"
          button="Pour them together"
          kind="quiet"
          folded
          values={{ 'blend-class': lot.class }}
        >
          <AmountField name={`blend-part-${lot.id}`} label={`Of this ${oneOf(item)}`} unit={item.unit} />
          {others.map((other) => (
            <AmountField
              key={other.id}
              name={`blend-part-${other.id}`}
              label={`Of ${other.label}`}
              unit={item.unit}
              optional
            />
          ))}
          <TextField name="blend-label" label="Name of the new bottle" width="medium" />
          <ClassField name="blend-class" />
        </Act>
      )}
      <Act {...props} act="thin" label="Thin it" button="Thin it" kind="quiet" folded>
        <AmountField name="thin-quantity" label="How much is added?" unit={item.unit} />
        <SelectField
          name="thin-solventLotId"
          label="From which bottle?"
          empty="From none on the shelf"
          options={solvents.map(({ item: of, lot: from }) => ({
            value: from.id,
            label: `${of.name}: ${from.label}`,
          }))}
        />
        <TextField name="thin-reason" label="Why?" width="full" optional />
      </Act>
    </>
  );
}

export function Correct(props: ActProps) {
  const { lot, item } = props.view;
  const { label, speedFactor, colour, note, usableUntil, peroxideCheckedOn } = lot;
  const values = {
    'correct-label': label,
    'correct-speedFactor': speedFactor ?? '',
    'correct-colour': colour,
    'correct-note': note,
    'correct-class': lot.class,
  };
  return (
    <Act
      {...props}
      act="correct"
      label="Correct what is told of it"
      button="Correct it"
      kind="quiet"
      folded
      values={values}
    >
      <TextField name="correct-label" label={`Name of the ${oneOf(item)}`} width="medium" />
      <DateField
        name="correct-usableUntil"
        label="Last day of use"
        hint="Empty: it does not run out."
        optional
        value={usableUntil ?? undefined}
      />
      <ClassField name="correct-class" />
      {item.kind === 'collodion' && (
        <NumberField
          name="correct-speedFactor"
          label="Times the reference exposure it asks for"
          hint="2 is half as fast."
          optional
          decimal
        />
      )}
      <TextField name="correct-colour" label="Colour" width="medium" optional />
      {item.kind === 'chemical' && (
        <DateField
          name="correct-peroxideCheckedOn"
          label="Tested for peroxides on"
          optional
          value={peroxideCheckedOn ?? undefined}
        />
      )}
      <TextArea name="correct-note" label="Note" optional rows={2} />
      <TextField name="correct-reason" label="Why is it corrected?" width="full" />
    </Act>
  );
}
