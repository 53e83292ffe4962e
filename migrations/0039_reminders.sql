-- Reminders before the day: the studio's rules, and what became of each reminder of each place.

create table reminder_rule (
  studio_id uuid not null references studio,
  rule_id uuid not null,
  kind text not null check (kind in ('travel', 'week', 'near', 'eve', 'day')),
  days int not null check (days between 0 and 365),
  hour int not null check (hour between 8 and 20),
  for_whom text not null check (for_whom in ('everyone', 'stays a night', 'flies', 'flies from abroad')),
  least_km int not null check (least_km between 0 and 20000),
  least_lead_days int not null check (least_lead_days between 0 and 730),
  is_on boolean not null,
  primary key (studio_id, rule_id)
);
call plateday_tenant('reminder_rule');

create table reminder (
  studio_id uuid not null references studio,
  reminder_id uuid not null,
  sitting_id uuid not null,
  -- the turn of the sitting that gave it the place; a move is another
  turn int not null,
  kind text not null check (kind in ('travel', 'week', 'near', 'eve', 'day')),
  due_at timestamptz not null,
  -- written: a letter is in the outbox, and its own state tells the rest
  state text not null check (state in ('planned', 'written', 'dropped')),
  reason text not null default '',
  mail_id uuid,
  ended_at timestamptz,
  primary key (studio_id, reminder_id),
  constraint reminder_once unique (studio_id, sitting_id, turn, kind),
  foreign key (studio_id, sitting_id) references sitting,
  check ((state = 'written') = (mail_id is not null)),
  check ((state = 'planned') = (ended_at is null)),
  check (state <> 'dropped' or reason <> '')
);
create index reminder_planned on reminder (studio_id, due_at) where state = 'planned';
call plateday_tenant('reminder');
