-- Silver baths as vessels with a ledger, what must be done before each day, and what a day itself takes.
-- Strength is whole milligrams of silver nitrate in a litre; areas are square micrometres of plate.

create table bath (
  studio_id uuid not null references studio,
  bath_id uuid not null,
  name text not null check (length(name) between 1 and 80),
  tank text not null check (tank in ('upright tank', 'tray')),
  plate_size_id uuid not null, -- the largest plate it takes
  volume bigint not null check (volume > 0), -- when full, microlitres
  least_volume bigint not null check (least_volume > 0),
  target_strength int not null check (target_strength between 1 and 500000),
  least_strength int not null check (least_strength between 1 and 500000),
  care_after_plates int not null check (care_after_plates between 1 and 1000), -- of its largest size
  lot_id uuid, -- the crystals it was made of
  state text not null check (state in ('working', 'sunning', 'resting', 'filtering', 'suspect', 'retired')),
  state_since date not null,
  state_until date, -- the day on which it is expected to work again
  note text not null default '',
  primary key (studio_id, bath_id),
  foreign key (studio_id, plate_size_id) references plate_size,
  foreign key (studio_id, lot_id) references lot,
  check (least_volume <= volume),
  check (least_strength <= target_strength),
  check (state_until is null or state in ('sunning', 'resting', 'filtering')),
  check (state_until is null or state_until >= state_since)
);
call plateday_tenant('bath');

-- Only ever added to; `seq` tells the order of those of one day.
create table bath_event (
  studio_id uuid not null,
  event_id uuid not null,
  bath_id uuid not null,
  seq bigint generated always as identity,
  day date not null,
  kind text not null check (kind in ('made', 'measured', 'topped up', 'poured', 'sunned', 'filtered', 'rested',
    'state', 'acidity', 'note', 'taken back')),
  method text check (method in ('hydrometer', 'titration')),
  density numeric(6, 4) check (density between 0.9 and 2),
  temperature numeric(4, 1) check (temperature between -5 and 50), -- degrees Celsius
  strength int check (strength between 0 and 500000),
  volume bigint check (volume >= 0), -- what is in it; what was added, when topped up
  crystals bigint check (crystals >= 0), -- milligrams
  area bigint check (area > 0),
  plates int check (plates > 0),
  ph numeric(3, 1) check (ph between 0 and 14),
  state text check (state in ('working', 'sunning', 'resting', 'filtering', 'suspect', 'retired')),
  until date,
  takes_back uuid, -- a line that was a slip and counts no more
  note text not null default '' check (length(note) <= 1000),
  who text not null,
  at timestamptz not null,
  primary key (studio_id, event_id),
  unique (studio_id, takes_back),
  foreign key (studio_id, bath_id) references bath,
  foreign key (studio_id, takes_back) references bath_event,
  check (case kind
    when 'made' then strength is not null and volume is not null
    when 'measured' then strength is not null and method is not null
    when 'topped up' then crystals is not null and volume is not null
    when 'poured' then area is not null and plates is not null
    when 'state' then state is not null
    when 'acidity' then ph is not null
    when 'note' then note <> ''
    when 'taken back' then takes_back is not null
    else true end)
);
create index bath_event_order on bath_event (studio_id, bath_id, day, seq);
call plateday_tenant('bath_event', 'select, insert');

-- What was seen on plates when the chemistry was off, what was changed, and whether it helped.
create table fault (
  studio_id uuid not null references studio,
  fault_id uuid not null,
  day date not null,
  bath_id uuid,
  lot_id uuid,
  seen text not null check (seen in
    ('fog', 'comets', 'oysters', 'crape lines', 'lifting film', 'pinholes', 'something else')),
  note text not null default '' check (length(note) <= 1000),
  changed text not null default '' check (length(changed) <= 1000),
  helped text not null default 'not known yet' check (helped in ('not known yet', 'yes', 'partly', 'no')),
  who text not null,
  at timestamptz not null,
  primary key (studio_id, fault_id),
  foreign key (studio_id, bath_id) references bath,
  foreign key (studio_id, lot_id) references lot
);
create index fault_by_day on fault (studio_id, day);
call plateday_tenant('fault', 'select, insert, update');

-- What must be done before a day. A studio without a row goes by the usual rules of preparation-rules.calc.ts.
create table preparation_rule (
  studio_id uuid not null references studio,
  rule_id uuid not null,
  position int not null,
  what text not null check (length(what) between 1 and 120),
  for_day text not null check (for_day in ('studio', 'teaching', 'both')),
  days_before int not null check (days_before between 0 and 30),
  minutes int not null check (minutes between 1 and 600),
  minutes_each int not null default 0 check (minutes_each between 0 and 60), -- for each sheet, when counted by sheets
  darkroom boolean not null,
  not_with uuid, -- never on one day with this rule
  condition text not null check (condition in ('always', 'hot', 'cold')),
  amount text not null check (amount in ('none', 'sheets')),
  note text not null default '' check (length(note) <= 500),
  archived boolean not null default false,
  primary key (studio_id, rule_id),
  foreign key (studio_id, not_with) references preparation_rule (studio_id, rule_id) deferrable initially deferred,
  check (not_with <> rule_id)
);
call plateday_tenant('preparation_rule');

-- Done, or not after all: the last line of a day and rule holds.
create table preparation_tick (
  studio_id uuid not null,
  tick_id uuid not null,
  seq bigint generated always as identity,
  day date not null, -- the studio or teaching day it is for
  rule_id uuid not null,
  done boolean not null,
  who text not null,
  at timestamptz not null,
  primary key (studio_id, tick_id),
  foreign key (studio_id, rule_id) references preparation_rule
);
create index preparation_tick_day on preparation_tick (studio_id, day, rule_id, seq);
call plateday_tenant('preparation_tick', 'select, insert');

-- What the owner moved to another day than the rule finds.
create table preparation_move (
  studio_id uuid not null,
  day date not null,
  rule_id uuid not null,
  to_day date not null,
  who text not null,
  at timestamptz not null,
  primary key (studio_id, day, rule_id),
  foreign key (studio_id, rule_id) references preparation_rule
);
call plateday_tenant('preparation_move');

-- A day on which somebody sits or learns. What the day itself takes is set aside for `day_id`.
create table studio_day (
  studio_id uuid not null references studio,
  day date not null,
  day_id uuid not null,
  room_temperature numeric(4, 1) check (room_temperature between -20 and 50), -- degrees Celsius
  humidity int check (humidity between 0 and 100), -- per cent
  note text not null default '' check (length(note) <= 1000),
  primary key (studio_id, day),
  unique (studio_id, day_id)
);
call plateday_tenant('studio_day');

-- What every studio day takes beside its sittings: test plates of one size, and so much of some items.
create table day_tests (
  studio_id uuid primary key references studio,
  plates int not null check (plates between 0 and 10),
  plate_size_id uuid,
  foreign key (studio_id, plate_size_id) references plate_size,
  check (plates = 0 or plate_size_id is not null)
);
call plateday_tenant('day_tests');

create table day_material (
  studio_id uuid not null,
  item_id uuid not null,
  quantity bigint not null check (quantity > 0),
  primary key (studio_id, item_id),
  foreign key (studio_id, item_id) references item
);
call plateday_tenant('day_material');

-- When the calendar counter rose last: what a task of the tasks feed gives as its last revision.
alter table studio add calendar_raised_at timestamptz;
