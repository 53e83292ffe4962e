-- The shelf in full: all kinds of material, bottles with a state and parents, suppliers and orders, formulas.
-- Quantities are whole milligrams, microlitres, sheets or pieces, as before.

create table supplier (
  studio_id uuid not null references studio,
  supplier_id uuid not null,
  name text not null check (length(name) between 1 and 120),
  contact text not null default '',
  lead_days int check (lead_days between 0 and 730),
  note text not null default '',
  primary key (studio_id, supplier_id)
);
call plateday_tenant('supplier');

-- A formula is never changed: a change is a further version, with all its lines.
create table formula (
  studio_id uuid not null references studio,
  formula_id uuid not null,
  item_kind text not null check (item_kind in
    ('glass', 'collodion', 'developer', 'fixer', 'varnish', 'bath', 'chemical', 'supply', 'gear')),
  name text not null check (length(name) between 1 and 120),
  own boolean not null default false,
  starter_key text,
  current_version int not null check (current_version >= 1),
  archived boolean not null default false,
  primary key (studio_id, formula_id)
);
call plateday_tenant('formula');

create table formula_version (
  studio_id uuid not null,
  formula_id uuid not null,
  version int not null check (version >= 1),
  created_at timestamptz not null,
  who text not null,
  batch_quantity bigint not null check (batch_quantity > 0), -- microlitres
  batch_as_written text not null default '',
  ripen_days int not null check (ripen_days between 0 and 730),
  life_days int check (life_days between 1 and 36500),
  source text not null default '',
  method text not null default '', -- the order of mixing, one step a line
  note text not null default '',
  primary key (studio_id, formula_id, version),
  foreign key (studio_id, formula_id) references formula
);
call plateday_tenant('formula_version', 'select, insert');

-- The level of an item at which it counts as used up, how it is bought and mixed, and what its label warns of.
alter table item
  drop constraint item_kind_check,
  drop constraint item_unit_check,
  add constraint item_kind_check check (kind in
    ('glass', 'collodion', 'developer', 'fixer', 'varnish', 'bath', 'chemical', 'supply', 'gear')),
  add constraint item_unit_check check (unit in ('mg', 'uL', 'sheet', 'piece')),
  add surface text,
  add substance text,
  add opened_life_days int check (opened_life_days between 1 and 36500),
  add formula_id uuid,
  add supplier_id uuid,
  add pack_quantity bigint check (pack_quantity > 0),
  add least_packs int not null default 1 check (least_packs between 1 and 10000),
  add heel bigint not null default 0 check (heel >= 0),
  add least_pour bigint not null default 0 check (least_pour >= 0),
  add most_on_hand bigint check (most_on_hand >= 0),
  add no_post boolean not null default false,
  add h_codes text[] not null default '{}',
  add hazard_note text not null default '',
  add storage text not null default '',
  add archived boolean not null default false,
  add foreign key (studio_id, formula_id) references formula,
  add foreign key (studio_id, supplier_id) references supplier;

-- Glass there was before is clear: nothing else could be entered.
do $$
declare
  one record;
begin
  for one in select studio_id from studio_directory where is_current loop
    perform set_config('app.studio_id', one.studio_id::text, true);
    update item set surface = 'clear glass' where studio_id = one.studio_id and kind = 'glass';
  end loop;
  perform set_config('app.studio_id', '', true);
end $$;
alter table item
  add constraint item_surface_check check (surface in ('clear glass', 'black glass', 'black-lacquered metal')),
  add constraint item_surface_of_glass check ((kind = 'glass') = (surface is not null));

create table formula_line (
  studio_id uuid not null,
  formula_id uuid not null,
  version int not null,
  position int not null,
  ingredient text not null check (length(ingredient) between 1 and 120),
  substance text,
  item_id uuid,
  quantity bigint not null check (quantity >= 0),
  unit text not null check (unit in ('mg', 'uL', 'piece')),
  as_written text not null default '',
  note text not null default '',
  primary key (studio_id, formula_id, version, position),
  foreign key (studio_id, formula_id, version) references formula_version,
  foreign key (studio_id, item_id) references item
);
call plateday_tenant('formula_line', 'select, insert');

-- A bottle is gone when nothing is left in it. One that is suspect keeps what is in it and gives nothing.
alter table lot
  add class text not null default 'ordinary' check (class in ('fresh', 'ordinary', 'old')),
  add speed_factor numeric(6, 3) check (speed_factor > 0),
  add colour text not null default '',
  add received_on date,
  add opened_on date,
  add state text not null default 'good' check (state in ('good', 'suspect', 'gone')),
  add state_note text not null default '',
  add peroxide_checked_on date,
  add note text not null default '',
  add constraint lot_gone_is_empty check (state <> 'gone' or on_hand = 0);
create index lot_live on lot (studio_id, item_id) where state <> 'gone';

-- What went from one bottle into another, and how much of it.
create table lot_parent (
  studio_id uuid not null,
  lot_id uuid not null,
  parent_lot_id uuid not null,
  quantity bigint not null check (quantity > 0),
  primary key (studio_id, lot_id, parent_lot_id),
  foreign key (studio_id, lot_id) references lot,
  foreign key (studio_id, parent_lot_id) references lot,
  check (lot_id <> parent_lot_id)
);
create index lot_parent_of on lot_parent (studio_id, parent_lot_id);
call plateday_tenant('lot_parent');

-- What is on hand is the sum of the signed quantities but for 'reserved' and 'released', which count what is
-- set aside. `seq` tells the order of those of one moment; `batch_id` is one for all of one act.
alter table movement
  drop constraint movement_kind_check,
  add constraint movement_kind_check check (kind in
    ('received', 'mixed', 'used', 'taken', 'discarded', 'counted', 'reserved', 'released')),
  add constraint movement_sign check (case
    when kind in ('received', 'mixed', 'reserved', 'released') then quantity >= 0
    when kind in ('used', 'taken', 'discarded') then quantity < 0
    else true end),
  add batch_id uuid,
  add who text not null default '',
  add seq bigint generated always as identity;
drop index movement_lot;
create index movement_lot on movement (studio_id, lot_id, seq);

-- A need is the rows of one holder, item, day and class: those with a lot, and at most one without. What bottle
-- the owner chose stands on all of them.
alter table reservation
  add class text not null default 'any' check (class in ('fresh', 'any', 'old')),
  add chosen_lot_id uuid,
  add foreign key (studio_id, chosen_lot_id) references lot,
  add constraint reservation_once
    unique nulls not distinct (studio_id, held_for, item_id, needed_on, class, lot_id);
create index reservation_lot on reservation (studio_id, lot_id);
grant update on reservation to plateday_app;

-- What was ordered; `lot_id` once it has come.
create table receipt (
  studio_id uuid not null,
  receipt_id uuid not null,
  item_id uuid not null,
  supplier_id uuid,
  quantity bigint not null check (quantity > 0),
  ordered_on date not null,
  expected_on date not null,
  lot_id uuid,
  cancelled boolean not null default false,
  primary key (studio_id, receipt_id),
  foreign key (studio_id, item_id) references item,
  foreign key (studio_id, supplier_id) references supplier,
  foreign key (studio_id, lot_id) references lot,
  check (expected_on >= ordered_on),
  check (lot_id is null or not cancelled)
);
create index receipt_open on receipt (studio_id, item_id) where lot_id is null and not cancelled;
call plateday_tenant('receipt');
