-- The turns of a teaching day as the owner keeps them: the bench they were laid on, where every plate is and when, and
-- what has happened on the day so far. Documents, whole (teaching/turns.schemas.ts): they are laid anew as a whole.

create table teaching_turns (
  studio_id uuid not null,
  session_id uuid not null,
  -- stands for the bench as it was laid on: of another one the turns are to be laid again
  basis text not null,
  bench jsonb not null,
  rota jsonb not null,
  meanwhile jsonb not null,
  -- rises with every change, so that two who tell something at once do not undo each other
  revision int not null check (revision >= 1),
  kept_at timestamptz not null,
  changed_at timestamptz not null,
  primary key (studio_id, session_id),
  foreign key (studio_id, session_id) references teaching_session
);
call plateday_tenant('teaching_turns', 'select, insert, update');
