-- The size of the labels for the backs of plates.

create table label_size (
  studio_id uuid primary key references studio,
  width_mm int not null check (width_mm between 20 and 200),
  height_mm int not null check (height_mm between 12 and 280)
);
call plateday_tenant('label_size');
