-- When the owner's letter about the day ahead goes; a studio without a row has it as every studio begins.

create table day_letter_rule (
  studio_id uuid primary key references studio,
  hour int not null check (hour between 4 and 21),
  is_on boolean not null
);
call plateday_tenant('day_letter_rule');
