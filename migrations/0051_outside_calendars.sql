-- Outside calendars: what the owner wants to be busy by. Of each the last good copy, without what is none of our business,
-- and what it blocks. Their times hold no room: they are read with the room's rules, like days on which the owner is away.

create table outside_calendar (
  studio_id uuid not null references studio,
  calendar_id uuid not null,
  name text not null check (name <> ''),
  -- null: it came as a file
  sealed_address bytea,
  host text not null,
  state text not null check (state in ('new', 'on', 'paused')),
  blocks text not null check (blocks in ('hours', 'days', 'nothing')),
  margin_minutes int not null check (margin_minutes between 0 and 240),
  etag text not null,
  last_modified text not null,
  copy text not null,
  entries int not null check (entries >= 0),
  free int not null check (free between 0 and entries),
  -- busy times to come, with what they are called: title, from, until in milliseconds, whether whole days
  busy jsonb not null,
  -- what of them closes the studio: from and until in turn, in milliseconds since the epoch
  blocking bigint[] not null check (array_length(blocking, 1) is null or array_length(blocking, 1) % 2 = 0),
  created_at timestamptz not null,
  -- the last time it was read without fault
  read_at timestamptz not null,
  next_at timestamptz not null,
  failures int not null check (failures >= 0),
  failure text not null,
  primary key (studio_id, calendar_id),
  check ((failures = 0) = (failure = '')),
  check (state = 'on' or blocking = '{}')
);
call plateday_tenant('outside_calendar');

comment on column outside_calendar.name is 'house';
comment on column outside_calendar.host is 'house';
comment on column outside_calendar.sealed_address is 'secret';
comment on column outside_calendar.state is 'plain';
comment on column outside_calendar.blocks is 'plain';
comment on column outside_calendar.etag is 'plain';
comment on column outside_calendar.last_modified is 'plain';
comment on column outside_calendar.copy is 'house';
comment on column outside_calendar.busy is 'house';
comment on column outside_calendar.failure is 'plain';
