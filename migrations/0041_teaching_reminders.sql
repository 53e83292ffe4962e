-- Reminders of teaching days: rules of their own, which say what each tells besides, and what became of each reminder
-- of a sign-up, in one table with those of sittings.

alter table reminder_rule
  add for_day text not null default 'sitting' check (for_day in ('sitting', 'teaching')),
  add tells text[] not null default '{}'
    check (tells <@ array['reading', 'safety', 'emergency', 'gear', 'deposit']),
  add check (for_day = 'teaching' or tells = '{}');
alter table reminder_rule alter for_day drop default, alter tells drop default;

alter table reminder
  alter sitting_id drop not null,
  add sign_up_id uuid,
  add foreign key (studio_id, sign_up_id) references sign_up,
  add check (num_nonnulls(sitting_id, sign_up_id) = 1),
  drop constraint reminder_once,
  add constraint reminder_once unique nulls not distinct (studio_id, sitting_id, sign_up_id, turn, kind);
create index reminder_of_sign_up on reminder (studio_id, sign_up_id) where sign_up_id is not null;

comment on column reminder_rule.for_day is 'plain';
comment on column reminder_rule.tells is 'plain';
