-- What is brought in from elsewhere, as a whole: a draft until it is confirmed, then a list of what came of its lines, so
-- that it can be undone as a whole.

create table bring_in_draft (
  studio_id uuid not null references studio,
  draft_id uuid not null,
  what text not null check (what in ('diary', 'shelf', 'plates')),
  -- as it was pasted, or as the file was read
  source text not null,
  -- what each column is, how dates are read, which lines are left out
  choices jsonb not null,
  -- the encoding was guessed: letters with accents want to be looked at
  guessed boolean not null,
  saved_at timestamptz not null,
  primary key (studio_id, draft_id)
);
call plateday_tenant('bring_in_draft');
create index bring_in_draft_saved on bring_in_draft (studio_id, saved_at);
comment on column bring_in_draft.what is 'plain';
comment on column bring_in_draft.source is 'personal: row, of another';
comment on column bring_in_draft.choices is 'plain';

create table bring_in (
  studio_id uuid not null references studio,
  bring_in_id uuid not null,
  what text not null check (what in ('diary', 'shelf', 'plates')),
  at timestamptz not null,
  who text not null,
  -- of what was read, by which the same file is known again
  sum bytea not null check (length(sum) = 32),
  -- the newest line of history when it came in: what is told of its lines after it was done since
  up_to bigint not null,
  undone_at timestamptz,
  undone_by text not null default '',
  primary key (studio_id, bring_in_id),
  check ((undone_at is null) = (undone_by = ''))
);
call plateday_tenant('bring_in', 'select, insert, update');
create index bring_in_sum on bring_in (studio_id, sum);
comment on column bring_in.what is 'plain';
comment on column bring_in.who is 'house';
comment on column bring_in.sum is 'secret';
comment on column bring_in.undone_by is 'house';

create table bring_in_line (
  studio_id uuid not null,
  bring_in_id uuid not null,
  -- of the text
  line int not null check (line >= 1),
  -- the sitting, the bottle or the plate it became
  became_id uuid not null,
  primary key (studio_id, bring_in_id, line),
  foreign key (studio_id, bring_in_id) references bring_in
);
call plateday_tenant('bring_in_line', 'select, insert');
