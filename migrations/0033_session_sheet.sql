-- What the owner fills in for the sheet of a teaching day by local rules, and that a day goes ahead. Who is named and
-- where help is stands on paper on the day; it is no secret, and the next day begins with what was said last.

create table briefing (
  studio_id uuid not null,
  session_id uuid not null,
  emergency_number text not null default '' check (length(emergency_number) <= 40),
  hospital text not null default '' check (length(hospital) <= 200),
  eyewash text not null default '' check (length(eyewash) <= 200),
  teacher text not null default '' check (length(teacher) <= 200),
  -- age of the youngest who will be in the room, helpers and visitors among them; null where nobody said
  youngest int check (youngest between 0 and 120),
  saved_at timestamptz not null,
  primary key (studio_id, session_id),
  foreign key (studio_id, session_id) references teaching_session
);
call plateday_tenant('briefing');

-- the owner has decided that it is held, also with fewer than its least number
alter table teaching_session add column goes_ahead_at timestamptz;
