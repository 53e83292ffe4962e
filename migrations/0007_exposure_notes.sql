-- What the studio wrote down about plates it exposed: light, lens and bottle, and whether the seconds were
-- right. The wall time and its zone are the truth; the sun's height is reckoned from them when it is needed.

create table exposure_note (
  studio_id uuid not null references studio,
  note_id uuid not null,
  zone text not null,
  wall_at timestamp not null,
  seconds double precision not null check (seconds > 0 and seconds <= 3600),
  weather text not null check (weather in ('clear', 'broken', 'bright overcast', 'dull', 'heavy')),
  lens text not null check (length(lens) between 1 and 80),
  f_number double precision not null check (f_number between 0.5 and 128),
  framing text not null check (length(framing) between 1 and 80),
  magnification double precision not null check (magnification between 0 and 10), -- 0: as for a distant subject
  bottle text not null check (length(bottle) between 1 and 80),
  verdict text not null check (verdict in ('good', 'under', 'over')),
  created_at timestamptz not null,
  primary key (studio_id, note_id)
);
create index exposure_note_by_time on exposure_note (studio_id, wall_at desc, note_id);
call plateday_tenant('exposure_note', 'select, insert, delete');
