-- The sheet that labels for the back of plates are printed on, and when a hand-over was noted.

-- Lengths in tenths of a millimetre. No row: the usual sheet.
create table label_sheet (
  studio_id uuid primary key references studio,
  paper text not null check (paper in ('A4', 'Letter')),
  width int not null check (width between 200 and 2100),
  height int not null check (height between 100 and 2900),
  across int not null check (across between 1 and 10),
  margin int not null check (margin between 0 and 500),
  gap int not null check (gap between 0 and 200)
);
call plateday_tenant('label_sheet');

-- The moment at which somebody said that the plates were given: until the studio's day ends it can be taken back. What
-- is ticked as having left the studio at that very moment was ticked by it.
alter table hand_over add column noted_at timestamptz,
  add constraint hand_over_given_is_noted check ((given_on is null) = (noted_at is null));
create index hand_over_plate_by_plate on hand_over_plate (studio_id, made_id);
