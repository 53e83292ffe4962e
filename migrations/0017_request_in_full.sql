-- A request in full: what helps them, what they bring, a guardian of somebody young; the words people agree to and
-- the house rules, each version kept; who has agreed to what and when; and requests that are not sent yet.

alter table sitting
  add access text not null default '' check (length(access) <= 2000),
  add brings text not null default '' check (length(brings) <= 2000),
  -- somebody who sits is under 18
  add minor boolean not null default false,
  add guardian_name text not null default '',
  add guardian_relation text not null default '',
  add guardian_reach text not null default '',
  add constraint sitting_guardian_can_be_reached check ((guardian_name = '') = (guardian_reach = ''));

-- The first version of each is the standard one; it is kept as soon as somebody agrees to it or it is changed.
create table wording (
  studio_id uuid not null references studio,
  purpose text not null check (purpose in ('contact', 'record', 'archive', 'show', 'house_rules')),
  version int not null check (version >= 1),
  words text not null check (length(words) <= 4000),
  since timestamptz not null,
  who text not null,
  primary key (studio_id, purpose, version)
);
call plateday_tenant('wording', 'select, insert');

create table consent (
  studio_id uuid not null references studio,
  consent_id uuid not null,
  contact_id uuid not null,
  -- null: of the contact
  sitter_id uuid,
  purpose text not null check (purpose in ('contact', 'record', 'archive', 'show')),
  version int not null,
  given_at timestamptz not null,
  given_how text not null check (given_how in ('page', 'told')),
  -- who wrote it down; 'contact' on their own page
  given_by text not null,
  withdrawn_at timestamptz,
  withdrawn_by text not null default '',
  primary key (studio_id, consent_id),
  foreign key (studio_id, contact_id) references contact,
  foreign key (studio_id, sitter_id) references sitter,
  foreign key (studio_id, purpose, version) references wording,
  constraint consent_withdrawn_by_somebody check ((withdrawn_at is null) = (withdrawn_by = '')),
  constraint consent_contact_is_the_contacts check ((purpose = 'contact') = (sitter_id is null))
);
create unique index consent_one_at_a_time on consent (studio_id, contact_id, purpose, sitter_id)
  nulls not distinct where withdrawn_at is null;
call plateday_tenant('consent', 'select, insert, update');

create table request_draft (
  studio_id uuid not null references studio,
  draft_id uuid not null,
  token_hash bytea not null,
  -- the fields of the form as they were typed; empty once it was sent
  answers jsonb not null,
  saved_at timestamptz not null,
  -- what it became
  sitting_id uuid,
  primary key (studio_id, draft_id),
  unique (studio_id, token_hash),
  foreign key (studio_id, sitting_id) references sitting
);
create index request_draft_saved on request_draft (studio_id, saved_at);
call plateday_tenant('request_draft');
