-- What a teaching day came to: who was there, what was made, what was used. Written on one page, and corrected on it.

create table class_record (
  studio_id uuid not null,
  session_id uuid not null,
  -- of the session; what the classes of one day tell is added up
  day date not null,
  -- false where what was set aside had been settled otherwise before: then the record moves no stock
  moves_stock boolean not null,
  note text not null default '' check (length(note) <= 1000),
  written_at timestamptz not null,
  primary key (studio_id, session_id),
  foreign key (studio_id, session_id) references teaching_session
);
create index class_record_day on class_record (studio_id, day);
call plateday_tenant('class_record');

-- What was set aside, and in which bottle, when the day was first written down: of this a correction begins again.
create table class_held (
  studio_id uuid not null,
  session_id uuid not null,
  holder uuid not null, -- a student, or the session for what the teacher shows
  lot_id uuid not null,
  quantity bigint not null check (quantity > 0),
  primary key (studio_id, session_id, holder, lot_id),
  foreign key (studio_id, session_id) references class_record on delete cascade,
  foreign key (studio_id, lot_id) references lot
);
create index class_held_lot on class_held (studio_id, lot_id);
call plateday_tenant('class_held');

create table class_used (
  studio_id uuid not null,
  session_id uuid not null,
  lot_id uuid not null,
  quantity bigint not null check (quantity > 0),
  primary key (studio_id, session_id, lot_id),
  foreign key (studio_id, session_id) references class_record on delete cascade,
  foreign key (studio_id, lot_id) references lot
);
create index class_used_lot on class_used (studio_id, lot_id);
call plateday_tenant('class_used');

create table class_tries (
  studio_id uuid not null,
  session_id uuid not null,
  maker uuid not null, -- a student, or the session for the whole group
  plate_size_id uuid not null,
  tries int not null check (tries between 0 and 1000),
  keepers int not null check (keepers between 0 and tries),
  primary key (studio_id, session_id, maker, plate_size_id),
  foreign key (studio_id, session_id) references class_record on delete cascade,
  foreign key (studio_id, plate_size_id) references plate_size
);
create index class_tries_size on class_tries (studio_id, plate_size_id);
call plateday_tenant('class_tries');

create table class_use (
  studio_id uuid not null,
  session_id uuid not null,
  what text not null check (what in ('collodion', 'developer', 'fixer', 'varnish', 'silver')),
  quantity bigint not null check (quantity >= 0), -- microlitres; of silver nitrate milligrams
  primary key (studio_id, session_id, what),
  foreign key (studio_id, session_id) references class_record on delete cascade
);
call plateday_tenant('class_use');

create table class_attendance (
  studio_id uuid not null,
  student_id uuid not null,
  session_id uuid not null,
  how text not null check (how in ('present', 'late', 'did_not_come')),
  primary key (studio_id, student_id),
  foreign key (studio_id, student_id) references student,
  foreign key (studio_id, session_id) references class_record on delete cascade
);
create index class_attendance_session on class_attendance (studio_id, session_id);
call plateday_tenant('class_attendance');
