-- Plates that were made, each with its running number; series with a target; the record on the back of a plate, by fields
-- the owner defines; and plates handed over to an archive.

-- The next running number. A studio that made plates before begins where its own book ends.
create table plate_numbers (
  studio_id uuid primary key references studio,
  next int not null check (next between 1 and 100000000)
);
call plateday_tenant('plate_numbers');

create table series (
  studio_id uuid not null references studio,
  series_id uuid not null,
  name text not null check (length(name) between 1 and 120),
  about text not null default '' check (length(about) <= 1000),
  -- keepers it is to have; null: no end is set
  target int check (target between 1 and 100000),
  archived boolean not null default false,
  primary key (studio_id, series_id)
);
call plateday_tenant('series');

create table plate_made (
  studio_id uuid not null references studio,
  made_id uuid not null,
  -- given once in the order of typing in, without a gap, and never again
  number int not null check (number >= 1),
  day date not null,
  -- null: a test plate, or one made for nobody who sat
  sitting_id uuid,
  -- the plate asked for that it was made for
  plate_id uuid,
  plate_size_id uuid not null,
  keeper boolean not null,
  seconds double precision check (seconds > 0 and seconds <= 3600),
  sky text check (sky in ('clear', 'broken', 'bright overcast', 'dull', 'heavy')),
  -- the collodion it was coated from and the silver bath it lay in
  lot_id uuid,
  bath_id uuid,
  result text not null default '' check (length(result) <= 200),
  note text not null default '' check (length(note) <= 1000),
  names text not null default '' check (length(names) <= 300),
  series_id uuid,
  series_number int check (series_number >= 1),
  typed_at timestamptz not null,
  who text not null,
  -- typed in by mistake: its number stays with it and is not given again
  struck_at timestamptz,
  primary key (studio_id, made_id),
  constraint plate_made_number unique (studio_id, number),
  constraint plate_made_series_number unique (studio_id, series_id, series_number),
  check ((series_id is null) = (series_number is null)),
  check (plate_id is null or sitting_id is not null),
  foreign key (studio_id, sitting_id) references sitting,
  foreign key (studio_id, plate_id) references plate on delete set null (plate_id),
  foreign key (studio_id, plate_size_id) references plate_size,
  foreign key (studio_id, lot_id) references lot,
  foreign key (studio_id, bath_id) references bath,
  foreign key (studio_id, series_id) references series
);
create index plate_made_by_day on plate_made (studio_id, day, number);
create index plate_made_sitting on plate_made (studio_id, sitting_id) where sitting_id is not null;
call plateday_tenant('plate_made', 'select, insert, update');

-- What stands on the back of a plate. Most is known already; what is 'typed' is asked of each plate.
create table record_field (
  studio_id uuid not null references studio,
  field_id uuid not null,
  position int not null,
  label text not null check (length(label) between 1 and 60),
  what text not null check (what in ('names', 'day', 'number', 'series', 'place', 'size', 'studio', 'exposure', 'typed')),
  archived boolean not null default false,
  primary key (studio_id, field_id)
);
call plateday_tenant('record_field');

create table record_entry (
  studio_id uuid not null references studio,
  made_id uuid not null,
  field_id uuid not null,
  value text not null check (length(value) between 1 and 300),
  primary key (studio_id, made_id, field_id),
  foreign key (studio_id, made_id) references plate_made,
  foreign key (studio_id, field_id) references record_field
);
call plateday_tenant('record_entry');

create table hand_over (
  studio_id uuid not null references studio,
  hand_over_id uuid not null,
  -- the archive that takes them
  taken_by text not null check (length(taken_by) between 1 and 200),
  note text not null default '' check (length(note) <= 1000),
  made_at timestamptz not null,
  -- when they went; null: the list is still being made
  given_on date,
  primary key (studio_id, hand_over_id)
);
call plateday_tenant('hand_over');

create table hand_over_plate (
  studio_id uuid not null references studio,
  hand_over_id uuid not null,
  made_id uuid not null,
  what text not null check (what in ('plate', 'scan')),
  primary key (studio_id, hand_over_id, made_id),
  foreign key (studio_id, hand_over_id) references hand_over,
  foreign key (studio_id, made_id) references plate_made
);
call plateday_tenant('hand_over_plate');
