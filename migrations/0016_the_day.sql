-- How a sitting went on its day: who has arrived, how it ended and why, and what was taken out of which bottle, so
-- that an ending told by a slip can be taken back the same day.

create table sitting_day (
  studio_id uuid not null references studio,
  sitting_id uuid not null,
  arrived_at timestamptz,
  ended_at timestamptz,
  reason text not null default '',
  note text not null default '' check (length(note) <= 1000),
  -- the request that was put on the list in its stead
  return_id uuid,
  primary key (studio_id, sitting_id),
  foreign key (studio_id, sitting_id) references sitting,
  foreign key (studio_id, return_id) references sitting
);
call plateday_tenant('sitting_day');

create table sitting_used (
  studio_id uuid not null references studio,
  sitting_id uuid not null,
  lot_id uuid not null,
  quantity bigint not null check (quantity > 0),
  primary key (studio_id, sitting_id, lot_id),
  foreign key (studio_id, sitting_id) references sitting,
  foreign key (studio_id, lot_id) references lot
);
call plateday_tenant('sitting_used');
