-- All states of a sitting, offers of a place that run out, and the studio's rule of the waiting list.

alter table sitting
  drop constraint sitting_state_check,
  add constraint sitting_state_check check (state in
    ('requested', 'waiting', 'offered', 'confirmed', 'made', 'came_no_plate', 'did_not_come',
     'declined', 'withdrawn', 'lapsed', 'released', 'called_off')),
  drop constraint sitting_check,
  add constraint sitting_has_its_place check (state not in ('offered', 'confirmed') or occupancy_id is not null),
  add constraint sitting_waits_without_place check (state not in ('requested', 'waiting', 'lapsed') or occupancy_id is null),
  -- how often its state has changed: the place of each letter in the order of letters about it
  add turns int not null default 0 check (turns >= 0),
  -- a place owed to them without fault of theirs: first on the list
  add return_owed boolean not null default false,
  -- the sitting in whose stead this one was asked for
  add return_of uuid,
  add foreign key (studio_id, return_of) references sitting,
  add offers_unanswered int not null default 0 check (offers_unanswered >= 0),
  -- marks by the owner, each with its reason
  add priority_reason text not null default '' check (length(priority_reason) <= 300),
  add hardship_reason text not null default '' check (length(hardship_reason) <= 300),
  -- days of notice they need, where it is known better than by distance
  add notice_days int check (notice_days between 0 and 365);

-- Held by an offer that is not accepted yet: the studio's calendar shows it as tentative, the sitter's not at all.
alter table occupancy add tentative boolean not null default false;

-- `for_id` is a sitting, or who wants to learn. An offer is never deleted.
create table offer (
  studio_id uuid not null references studio,
  offer_id uuid not null,
  for_id uuid not null,
  occupancy_id uuid,
  made_at timestamptz not null,
  expires_at timestamptz not null,
  by_telephone boolean not null default false,
  who text not null,
  answer text check (answer in ('accepted', 'refused', 'lapsed', 'another day', 'withdrawn', 'called off')),
  answered_at timestamptz,
  answered_by text not null default '',
  primary key (studio_id, offer_id),
  foreign key (studio_id, occupancy_id) references occupancy,
  check (expires_at > made_at),
  check ((answer is null) = (answered_at is null)),
  -- honoured exactly until it runs out
  constraint offer_accepted_in_time check (answer <> 'accepted' or answered_at < expires_at),
  constraint offer_lapsed_in_time check (answer <> 'lapsed' or answered_at >= expires_at)
);
create unique index offer_one_live on offer (studio_id, for_id) where answer is null;
create index offer_live on offer (studio_id, expires_at) where answer is null;
create index offer_for on offer (studio_id, for_id, made_at);
create index offer_place on offer (studio_id, occupancy_id);
call plateday_tenant('offer', 'select, insert, update');

-- Without a row the defaults of waiting/rules.schemas.ts hold. Weights are points.
create table waiting_rules (
  studio_id uuid primary key references studio,
  mode text not null check (mode in ('by hand', 'propose', 'automatic')),
  points_asked int not null check (points_asked between 0 and 100), -- for each year of waiting
  points_flexible int not null check (points_flexible between 0 and 100),
  points_far int not null check (points_far between 0 and 100),
  points_series int not null check (points_series between 0 and 100),
  points_priority int not null check (points_priority between 0 and 100),
  points_hardship int not null check (points_hardship between 0 and 100),
  most_unanswered int not null check (most_unanswered between 1 and 10),
  far_weeks int not null check (far_weeks between 1 and 52),
  far_days int not null check (far_days between 1 and 60),
  near_weeks int not null check (near_weeks between 0 and 52),
  middle_days int not null check (middle_days between 1 and 60),
  telephone_days int not null check (telephone_days between 1 and 14),
  ends_at_hour int not null check (ends_at_hour between 9 and 19), -- of a working day, time at the studio
  notice_near int not null check (notice_near between 0 and 365), -- days, by how far they come
  notice_day int not null check (notice_day between 0 and 365),
  notice_night int not null check (notice_night between 0 and 365),
  notice_flight int not null check (notice_flight between 0 and 365),
  check (near_weeks <= far_weeks)
);
call plateday_tenant('waiting_rules', 'select, insert, update');
