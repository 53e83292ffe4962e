-- What somebody asks to change that would change the plan: other plates, more people. The studio answers it itself;
-- the record of the sitting keeps that it was asked.
create table plan_wish (
  studio_id uuid not null references studio,
  sitting_id uuid not null,
  words text not null check (length(words) between 1 and 2000),
  asked_at timestamptz not null,
  primary key (studio_id, sitting_id),
  foreign key (studio_id, sitting_id) references sitting
);
call plateday_tenant('plan_wish');
