-- What is still owed after the day until the plates have left the studio: the owner's steps and what was ticked.
-- Gift vouchers; and letters that are held back because a voucher is a surprise.

create table owed_step (
  studio_id uuid not null references studio,
  step_id uuid not null,
  position int not null,
  what text not null check (length(what) between 1 and 120),
  -- due so many days after the day of the sitting
  days int not null check (days between 0 and 730),
  -- with it the plates have left the studio, and nothing more is owed
  leaves boolean not null,
  archived boolean not null default false,
  primary key (studio_id, step_id)
);
call plateday_tenant('owed_step');

-- Where a kind of sitting goes by other days; null: not owed for this kind.
create table owed_step_kind (
  studio_id uuid not null,
  step_id uuid not null,
  kind_id uuid not null,
  days int check (days between 0 and 730),
  primary key (studio_id, step_id, kind_id),
  foreign key (studio_id, step_id) references owed_step,
  foreign key (studio_id, kind_id) references sitting_kind
);
call plateday_tenant('owed_step_kind');

create table owed_done (
  studio_id uuid not null references studio,
  sitting_id uuid not null,
  step_id uuid not null,
  at timestamptz not null,
  who text not null,
  primary key (studio_id, sitting_id, step_id),
  foreign key (studio_id, sitting_id) references sitting,
  foreign key (studio_id, step_id) references owed_step
);
call plateday_tenant('owed_done');

create table voucher (
  studio_id uuid not null references studio,
  voucher_id uuid not null,
  -- as it stands on the paper
  number text not null check (length(number) between 1 and 20),
  buyer text not null check (length(buyer) between 1 and 200),
  buyer_reach text not null default '' check (length(buyer_reach) <= 254),
  for_whom text not null default '' check (length(for_whom) <= 200),
  -- a note, no sum that is reckoned with
  worth text not null default '' check (length(worth) <= 200),
  valid_until date,
  -- nothing is told to whoever sits before the owner says so
  surprise boolean not null,
  told_at timestamptz,
  sitting_id uuid,
  used_on date,
  made_at timestamptz not null,
  primary key (studio_id, voucher_id),
  constraint voucher_number unique (studio_id, number),
  foreign key (studio_id, sitting_id) references sitting,
  constraint voucher_used_on_something check ((sitting_id is null) = (used_on is null)),
  constraint voucher_told_of_a_surprise check (surprise or told_at is null)
);
create index voucher_sitting on voucher (studio_id, sitting_id) where sitting_id is not null;
call plateday_tenant('voucher');

alter table mail drop constraint mail_state_check,
  add constraint mail_state_check check (state in ('waiting', 'sending', 'sent', 'parked', 'dropped', 'held'));
