-- Teaching: what is taught (templates), on which days (sessions), who signs up, and the students themselves.
-- What a template says of its day is kept as one document (teaching/course.schemas.ts); a session has its own copy, so
-- that a change of the template changes no day that people have signed up for.

create table teaching_template (
  studio_id uuid not null references studio,
  template_id uuid not null,
  course jsonb not null,
  archived boolean not null default false,
  made_at timestamptz not null,
  primary key (studio_id, template_id)
);
call plateday_tenant('teaching_template');

create table teaching_session (
  studio_id uuid not null,
  session_id uuid not null,
  template_id uuid not null,
  course jsonb not null,
  state text not null check (state in ('draft', 'open', 'full', 'run', 'called_off')),
  occupancy_id uuid not null,
  places int not null check (places between 1 and 40),
  -- students who have a place, or have one offered
  taken int not null default 0,
  least int not null check (least >= 1),
  decide_on date not null,
  -- of one-to-one teaching: on no public page
  private boolean not null default false,
  -- somebody besides the teacher who knows what to do
  second_adult text not null default '' check (length(second_adult) <= 200),
  made_at timestamptz not null,
  primary key (studio_id, session_id),
  foreign key (studio_id, template_id) references teaching_template,
  foreign key (studio_id, occupancy_id) references occupancy,
  constraint teaching_session_never_overfull check (taken between 0 and places),
  check (least <= places)
);
create index teaching_session_template on teaching_session (studio_id, template_id);
create index teaching_session_occupancy on teaching_session (studio_id, occupancy_id);
call plateday_tenant('teaching_session');

create table sign_up (
  studio_id uuid not null,
  sign_up_id uuid not null,
  template_id uuid not null,
  -- none while one-to-one teaching is only asked for
  session_id uuid,
  contact_id uuid not null,
  state text not null check (state in ('requested', 'waiting', 'offered', 'signed', 'attended', 'did_not_come',
    'declined', 'withdrawn', 'lapsed', 'released', 'called_off')),
  asked_at timestamptz not null,
  decided_at timestamptz,
  -- the day asked for, of one-to-one teaching
  wanted_on date,
  -- the earlier sign-up of somebody who comes a second day
  follows uuid,
  anything text not null default '' check (length(anything) <= 2000),
  message text not null default '' check (length(message) <= 2000),
  deposit text not null default 'none' check (deposit in ('none', 'due', 'received')),
  deposit_at timestamptz,
  offers_unanswered int not null default 0 check (offers_unanswered >= 0),
  turns int not null default 0 check (turns >= 0),
  primary key (studio_id, sign_up_id),
  foreign key (studio_id, template_id) references teaching_template,
  foreign key (studio_id, session_id) references teaching_session,
  foreign key (studio_id, contact_id) references contact,
  foreign key (studio_id, follows) references sign_up,
  check (session_id is not null or state in ('requested', 'declined', 'withdrawn'))
);
create index sign_up_session on sign_up (studio_id, session_id, asked_at);
create index sign_up_template on sign_up (studio_id, template_id);
create index sign_up_contact on sign_up (studio_id, contact_id);
create index sign_up_follows on sign_up (studio_id, follows);
call plateday_tenant('sign_up', 'select, insert, update');

create table student (
  studio_id uuid not null,
  student_id uuid not null,
  sign_up_id uuid not null,
  position int not null,
  name text not null check (length(name) between 1 and 200),
  experience text not null check (experience in ('none', 'some', 'practised')),
  -- another size than the day's plates
  plate_size_id uuid,
  brings text not null default '' check (length(brings) <= 2000),
  gear jsonb not null default '{}',
  access text not null default '' check (length(access) <= 2000),
  -- private, and erased after the day
  emergency_name text not null default '' check (length(emergency_name) <= 200),
  emergency_telephone text not null default '' check (length(emergency_telephone) <= 40),
  -- without these no place at the bench
  safety_version int,
  safety_at timestamptz,
  primary key (studio_id, student_id),
  foreign key (studio_id, sign_up_id) references sign_up,
  foreign key (studio_id, plate_size_id) references plate_size,
  check ((safety_version is null) = (safety_at is null))
);
create index student_sign_up on student (studio_id, sign_up_id, position);
create index student_plate_size on student (studio_id, plate_size_id);
call plateday_tenant('student', 'select, insert, update');

-- Without a row the wording of teaching/safety.calc.ts holds, as version 1. A wording is never changed, only followed.
create table safety_wording (
  studio_id uuid not null references studio,
  version int not null check (version > 1),
  wording text not null check (length(wording) between 1 and 6000),
  made_at timestamptz not null,
  who text not null,
  primary key (studio_id, version)
);
call plateday_tenant('safety_wording', 'select, insert');
