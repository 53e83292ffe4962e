-- Who asks, and the one room that sittings, teaching days and closures all occupy.

create table contact (
  studio_id uuid not null references studio,
  contact_id uuid not null,
  name text not null check (length(name) between 1 and 200),
  reach_by text not null check (reach_by in ('email', 'telephone', 'letter')),
  email text not null default '',
  telephone text not null default '',
  postal_address text not null default '',
  home_name text not null default '',
  home_latitude double precision,
  home_longitude double precision,
  home_zone text,
  created_at timestamptz not null,
  primary key (studio_id, contact_id),
  constraint contact_reachable check (case reach_by
    when 'email' then email <> '' when 'telephone' then telephone <> '' else postal_address <> '' end)
);
call plateday_tenant('contact');

create table sitter (
  studio_id uuid not null,
  sitter_id uuid not null,
  contact_id uuid not null,
  name text not null check (length(name) between 1 and 200),
  position int not null,
  primary key (studio_id, sitter_id),
  foreign key (studio_id, contact_id) references contact on delete cascade
);
create index sitter_contact on sitter (studio_id, contact_id);
call plateday_tenant('sitter');

-- The weekly rhythm: on which weekday (1 = Monday) sittings may start at which wall times.
create table rhythm (
  studio_id uuid not null references studio,
  rhythm_id uuid not null,
  weekday int not null check (weekday between 1 and 7),
  starts int[] not null check (array_length(starts, 1) between 1 and 48), -- minutes after midnight
  first_plate_minutes int not null check (first_plate_minutes between 5 and 720),
  further_plate_minutes int not null check (further_plate_minutes between 0 and 720),
  changeover_minutes int not null check (changeover_minutes between 0 and 240),
  most_sittings int not null check (most_sittings between 1 and 48),
  effective_from date not null,
  effective_until date,
  primary key (studio_id, rhythm_id),
  check (effective_until is null or effective_until >= effective_from)
);
call plateday_tenant('rhythm');

-- What takes the room, and when. Truth is the wall time and its zone; `during` is derived from them
-- and holds the room's time, change-over included; starts_at and ends_at are the people's time.
create table occupancy (
  studio_id uuid not null references studio,
  occupancy_id uuid not null,
  resource text not null check (resource in ('room', 'darkroom', 'owner', 'helper')),
  kind text not null check (kind in ('sitting', 'teaching', 'closure')),
  held_for uuid not null,
  holds boolean not null,
  zone text not null,
  wall_start timestamp not null,
  wall_end timestamp not null,
  starts_at timestamptz not null,
  ends_at timestamptz not null,
  during tstzrange not null,
  title text not null default '',
  uid uuid not null,
  sequence int not null default 0,
  revised_at timestamptz not null,
  created_at timestamptz not null,
  primary key (studio_id, occupancy_id),
  constraint occupancy_proper check (starts_at < ends_at and not isempty(during)
    and lower(during) is not null and upper(during) is not null),
  constraint occupancy_no_overlap
    exclude using gist (studio_id with =, resource with =, during with &&) where (holds)
);
create index occupancy_by_time on occupancy (studio_id, starts_at);
create index occupancy_held_for on occupancy (studio_id, held_for);
call plateday_tenant('occupancy');
