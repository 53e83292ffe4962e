-- A sitting from the first asking to its end. The place it has is its occupancy.

create table sitting (
  studio_id uuid not null,
  sitting_id uuid not null,
  contact_id uuid not null,
  state text not null check (state in
    ('requested', 'confirmed', 'declined', 'withdrawn', 'released', 'called_off')),
  asked_at timestamptz not null,
  any_day_from date,
  any_day_until date,
  days date[] not null default '{}',
  hopes text not null default '',
  anything text not null default '',
  message text not null default '', -- the studio's last word to the contact
  decided_at timestamptz,
  occupancy_id uuid,
  primary key (studio_id, sitting_id),
  foreign key (studio_id, contact_id) references contact,
  foreign key (studio_id, occupancy_id) references occupancy,
  check (state <> 'confirmed' or occupancy_id is not null),
  check ((any_day_from is null) = (any_day_until is null)),
  check (any_day_from is not null or array_length(days, 1) >= 1)
);
create index sitting_by_state on sitting (studio_id, state, asked_at);
create index sitting_contact on sitting (studio_id, contact_id);
create index sitting_occupancy on sitting (studio_id, occupancy_id);
call plateday_tenant('sitting');

create table plate (
  studio_id uuid not null,
  plate_id uuid not null,
  sitting_id uuid not null,
  position int not null,
  plate_size_id uuid not null,
  primary key (studio_id, plate_id),
  foreign key (studio_id, sitting_id) references sitting on delete cascade,
  foreign key (studio_id, plate_size_id) references plate_size
);
create index plate_sitting on plate (studio_id, sitting_id);
call plateday_tenant('plate');

create table plate_sitter (
  studio_id uuid not null,
  plate_id uuid not null,
  sitter_id uuid not null,
  primary key (studio_id, plate_id, sitter_id),
  foreign key (studio_id, plate_id) references plate on delete cascade,
  foreign key (studio_id, sitter_id) references sitter on delete cascade
);
call plateday_tenant('plate_sitter');
