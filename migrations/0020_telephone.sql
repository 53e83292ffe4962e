-- What mail does not tell, or too late: the list of whom to telephone or write to by hand. And what an act of the
-- desk changed of a sitting, so that it can be undone while nobody was told.

alter table mail
  -- how it reaches them where mail does not; '' where it goes by mail
  add by_hand text not null default '' check (by_hand in ('', 'telephone', 'letter')),
  -- it goes by mail as well, and may come too late
  add telephone_now boolean not null default false,
  -- when and by whom it was told, or posted, by hand
  add told_at timestamptz,
  add told_by text not null default '',
  add constraint mail_told_by_somebody check ((told_at is null) = (told_by = ''));
create index mail_by_hand on mail (studio_id, created_at)
  where by_hand <> '' or telephone_now or state = 'parked' or told_at is not null;

create table sitting_act (
  studio_id uuid not null references studio,
  act_id uuid not null,
  sitting_id uuid not null,
  event text not null check (event in ('approve', 'decline', 'wait', 'mark')),
  -- of the sitting after it: while there are no more, nothing happened since
  turns int not null check (turns >= 0),
  before jsonb not null,
  at timestamptz not null,
  who text not null,
  undone_at timestamptz,
  primary key (studio_id, act_id),
  foreign key (studio_id, sitting_id) references sitting
);
create index sitting_act_newest on sitting_act (studio_id, sitting_id, at);
call plateday_tenant('sitting_act', 'select, insert, update');
