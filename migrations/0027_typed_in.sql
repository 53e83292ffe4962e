-- What a day took off the shelf once somebody says what became of it, so that it can be corrected by the difference and
-- nothing is used twice, in whatever order a sitting ends, its plates are typed in and its day is settled.

-- Whether anything was set aside for the sitting when its ending was told: only then is it set aside again when that is
-- taken back. Endings told before this stood here can be taken back as they always could.
alter table sitting_day add column set_aside boolean not null default true;

-- Whether the day's test plates were typed in: then they are not set aside again.
alter table studio_day add column tests_typed boolean not null default false;

-- What was said to be used of what had been set aside for a day that is past ("What a day took").
create table day_settled (
  studio_id uuid not null references studio,
  day date not null,
  held_for uuid not null,
  lot_id uuid not null,
  quantity bigint not null check (quantity > 0),
  primary key (studio_id, day, held_for, lot_id),
  foreign key (studio_id, lot_id) references lot
);
call plateday_tenant('day_settled');

-- What each plate took of which bottle or box, by the figures of when it was typed in.
create table plate_took (
  studio_id uuid not null references studio,
  made_id uuid not null,
  lot_id uuid not null,
  quantity bigint not null check (quantity > 0),
  primary key (studio_id, made_id, lot_id),
  foreign key (studio_id, made_id) references plate_made,
  foreign key (studio_id, lot_id) references lot
);
call plateday_tenant('plate_took');

-- The line of a bath's ledger that tells of a day's typed plates; a correction takes it back and writes another.
create table day_poured (
  studio_id uuid not null references studio,
  day date not null,
  bath_id uuid not null,
  event_id uuid not null,
  primary key (studio_id, day, bath_id),
  foreign key (studio_id, bath_id) references bath,
  foreign key (studio_id, event_id) references bath_event
);
call plateday_tenant('day_poured');
