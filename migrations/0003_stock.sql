-- The shelf. Quantities are whole milligrams, microlitres, sheets or pieces.
-- Movements are only ever added; each lot's level is a running total changed by one guarded UPDATE.

create table plate_size (
  studio_id uuid not null references studio,
  plate_size_id uuid not null,
  name text not null check (length(name) between 1 and 80),
  width_mm numeric(7, 3) not null check (width_mm > 0),
  height_mm numeric(7, 3) not null check (height_mm > 0),
  offered boolean not null default true,
  position int not null,
  primary key (studio_id, plate_size_id)
);
call plateday_tenant('plate_size');

create table item (
  studio_id uuid not null references studio,
  item_id uuid not null,
  name text not null check (length(name) between 1 and 120),
  kind text not null check (kind in ('glass', 'collodion', 'developer', 'fixer', 'varnish')),
  unit text not null check (unit in ('mg', 'uL', 'sheet')),
  plate_size_id uuid,
  -- How more of it comes: bought (with this lead time), mixed here (ready after ripening), or neither.
  lead_days int check (lead_days between 0 and 730),
  ripen_days int check (ripen_days between 0 and 730),
  life_days int check (life_days between 1 and 36500),
  primary key (studio_id, item_id),
  foreign key (studio_id, plate_size_id) references plate_size,
  check ((kind = 'glass') = (plate_size_id is not null)),
  check ((kind = 'glass') = (unit = 'sheet'))
);
call plateday_tenant('item');

create table lot (
  studio_id uuid not null,
  lot_id uuid not null,
  item_id uuid not null,
  label text not null check (length(label) between 1 and 120),
  usable_from date not null,
  usable_until date,
  on_hand bigint not null default 0,
  reserved bigint not null default 0,
  primary key (studio_id, lot_id),
  foreign key (studio_id, item_id) references item,
  check (usable_until is null or usable_until >= usable_from),
  constraint lot_never_negative check (on_hand >= 0),
  constraint lot_never_oversold check (reserved between 0 and on_hand)
);
create index lot_item on lot (studio_id, item_id);
call plateday_tenant('lot');

create table movement (
  studio_id uuid not null,
  movement_id uuid not null,
  lot_id uuid not null,
  kind text not null check (kind in ('received', 'reserved', 'released', 'used', 'counted', 'discarded', 'mixed')),
  quantity bigint not null,
  held_for uuid,
  reason text not null default '',
  at timestamptz not null,
  primary key (studio_id, movement_id),
  foreign key (studio_id, lot_id) references lot
);
create index movement_lot on movement (studio_id, lot_id, at);
call plateday_tenant('movement', 'select, insert');

-- What is set aside for a place. Without a lot it is a batch still to be mixed or bought in time.
create table reservation (
  studio_id uuid not null,
  reservation_id uuid not null,
  held_for uuid not null,
  item_id uuid not null,
  lot_id uuid,
  quantity bigint not null check (quantity > 0),
  needed_on date not null,
  primary key (studio_id, reservation_id),
  foreign key (studio_id, item_id) references item,
  foreign key (studio_id, lot_id) references lot
);
create index reservation_held_for on reservation (studio_id, held_for);
create index reservation_item_day on reservation (studio_id, item_id, needed_on);
call plateday_tenant('reservation', 'select, insert, delete');
