-- What a day took, written down afterwards: how often plates of each size were tried and how many were kept, and how
-- much of each solution was used. All of it may be corrected; the history tells by whom. It moves no stock.

create table day_actuals (
  studio_id uuid not null references studio,
  day date not null,
  made_by text not null check (made_by in ('sittings', 'beginners')), -- whose plates they were
  actuals_id uuid not null, -- what the history calls it
  note text not null default '' check (length(note) <= 1000),
  primary key (studio_id, day, made_by),
  unique (studio_id, actuals_id)
);
call plateday_tenant('day_actuals');

create table day_tries (
  studio_id uuid not null,
  day date not null,
  made_by text not null,
  plate_size_id uuid not null,
  plate_area bigint not null check (plate_area > 0), -- of one plate, square micrometres, as the size was then
  tries int not null check (tries between 1 and 1000),
  keepers int not null check (keepers between 0 and tries),
  primary key (studio_id, day, made_by, plate_size_id),
  foreign key (studio_id, day, made_by) references day_actuals on delete cascade,
  foreign key (studio_id, plate_size_id) references plate_size
);
call plateday_tenant('day_tries');

create table day_use (
  studio_id uuid not null,
  day date not null,
  made_by text not null,
  what text not null check (what in ('collodion', 'developer', 'fixer', 'varnish', 'silver')),
  quantity bigint not null check (quantity >= 0), -- microlitres; of silver nitrate milligrams
  primary key (studio_id, day, made_by, what),
  foreign key (studio_id, day, made_by) references day_actuals on delete cascade
);
call plateday_tenant('day_use');
