-- Plans for the waiting list: what was proposed with which weights, and what became of each person in it.

create table plan (
  studio_id uuid not null references studio,
  plan_id uuid not null,
  made_at timestamptz not null,
  who text not null,
  weights jsonb not null,
  state text not null check (state in ('proposed', 'confirmed', 'dropped')),
  -- whether people are given their place or asked first; known once it is confirmed
  gives text check (gives in ('offer', 'place')),
  settled_at timestamptz,
  -- the objective, and what no plan can pass
  points int not null check (points >= 0),
  bound int not null,
  primary key (studio_id, plan_id),
  check (bound >= points),
  check ((state = 'confirmed') = (gives is not null)),
  check ((state = 'proposed') = (settled_at is null))
);
-- what is open to be decided is one plan at most
create unique index plan_one_proposed on plan (studio_id) where state = 'proposed';
create index plan_latest on plan (studio_id, made_at);
call plateday_tenant('plan', 'select, insert, update');

create table plan_entry (
  studio_id uuid not null references studio,
  plan_id uuid not null,
  sitting_id uuid not null,
  position int not null check (position > 0), -- on the list, when it was planned
  wall_start timestamp, -- null: left out
  place jsonb, -- what is shown of the place: its end, light, stock, points
  left_out jsonb, -- why there is none
  ticked boolean not null default true,
  outcome text not null default '' check (length(outcome) <= 300), -- '': nothing done yet; 'given'; else why not
  primary key (studio_id, plan_id, sitting_id),
  foreign key (studio_id, plan_id) references plan,
  foreign key (studio_id, sitting_id) references sitting,
  check ((wall_start is null) = (place is null)),
  check ((wall_start is null) = (left_out is not null))
);
create index plan_entry_sitting on plan_entry (studio_id, sitting_id);
call plateday_tenant('plan_entry', 'select, insert, update');
