-- The rhythm in full: breaks, party sizes, limits of a day, held-back places, who is there, kinds of
-- sitting, closures that take the room in pieces, and how long each sitter can hold still.

-- Rows kept from before hold nothing back and count plates from now on.
alter table rhythm
  add further_sitter_minutes int not null default 0 check (further_sitter_minutes between 0 and 720),
  -- minutes after midnight, in pairs of from and until
  add breaks int[] not null default '{}' check (cardinality(breaks) % 2 = 0 and cardinality(breaks) <= 24),
  add most_sittings_with_helper int check (most_sittings_with_helper between 1 and 48),
  add most_plates int not null default 10 check (most_plates between 1 and 200),
  add held_back int not null default 0 check (held_back between 0 and 48),
  add held_back_days int not null default 14 check (held_back_days between 0 and 365);

-- Weekdays (1 = Monday) on which somebody is there, and single days otherwise. Without a row the owner
-- is always there and the helper never.
create table attendance (
  studio_id uuid not null references studio,
  who text not null check (who in ('owner', 'helper')),
  weekdays int[] not null check (weekdays <@ array[1, 2, 3, 4, 5, 6, 7]),
  also date[] not null default '{}',
  away date[] not null default '{}',
  primary key (studio_id, who)
);
call plateday_tenant('attendance');

create table sitting_kind (
  studio_id uuid not null references studio,
  kind_id uuid not null,
  position int not null,
  name text not null check (length(name) between 1 and 80),
  offered text not null check (offered in ('public', 'owner', 'not any more')),
  first_plate_minutes int check (first_plate_minutes between 5 and 720), -- null: as the rhythm says
  plates int not null check (plates between 1 and 6),
  fee text not null default '',
  deposit text not null default '',
  keeps_plate text not null check (keeps_plate in ('sitter', 'studio', 'series')),
  weekdays int[] not null default '{}' check (weekdays <@ array[1, 2, 3, 4, 5, 6, 7]), -- none: every day
  yearly_quota int check (yearly_quota between 0 and 1000),
  primary key (studio_id, kind_id)
);
call plateday_tenant('sitting_kind');

-- A stretch of wall time in which the room is closed; what of it holds the room are its occupancies.
create table closure (
  studio_id uuid not null references studio,
  closure_id uuid not null,
  title text not null default '' check (length(title) <= 120),
  wall_from timestamp not null,
  wall_until timestamp not null,
  primary key (studio_id, closure_id),
  check (wall_from < wall_until)
);
call plateday_tenant('closure');

-- Seconds that people hold still; without a row the defaults of room/pose.calc.ts hold.
create table pose_limits (
  studio_id uuid primary key references studio,
  under_8 double precision not null check (under_8 > 0),
  from_8_to_14 double precision not null check (from_8_to_14 > 0),
  adult double precision not null check (adult > 0),
  head_rest double precision not null check (head_rest > 0),
  group_of_3 double precision not null check (group_of_3 > 0)
);
call plateday_tenant('pose_limits');

alter table sitter
  add age_band text not null default 'adult' check (age_band in ('adult', '8 to 14', 'under 8')),
  add head_rest boolean not null default true;

alter table sitting add kind_id uuid, add foreign key (studio_id, kind_id) references sitting_kind;
-- What a day's and a year's limits count, beside the time itself; 0 for a closure.
alter table occupancy add plates int not null default 0 check (plates >= 0), add kind_id uuid;
create index occupancy_kind on occupancy (studio_id, kind_id, wall_start) where holds and kind_id is not null;

do $$
declare
  one record;
begin
  for one in select studio_id from studio_directory where is_current loop
    perform set_config('app.studio_id', one.studio_id::text, true);
    insert into closure (studio_id, closure_id, title, wall_from, wall_until)
      select studio_id, held_for, left(min(title), 120), min(wall_start), max(wall_end) from occupancy
      where studio_id = one.studio_id and kind = 'closure' and holds group by studio_id, held_for;
    update occupancy o set plates = (
        select count(*) from sitting s join plate p on p.studio_id = s.studio_id and p.sitting_id = s.sitting_id
        where s.studio_id = o.studio_id and s.occupancy_id = o.occupancy_id)
      where o.studio_id = one.studio_id and o.kind = 'sitting';
  end loop;
  perform set_config('app.studio_id', '', true);
end $$;
