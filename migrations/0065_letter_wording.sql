-- The owner's own words for a letter in a language. A version is never changed, only followed by another; one without
-- words goes back to ours.
create table letter_wording (
  studio_id uuid not null references studio,
  kind text not null check (length(kind) <= 40),
  language text not null constraint letter_wording_language_known check (language in ('en', 'fr')),
  version int not null check (version >= 1),
  subject text not null check (length(subject) <= 200),
  body text not null check (length(body) <= 6000),
  since timestamptz not null,
  who text not null,
  primary key (studio_id, kind, language, version),
  constraint letter_wording_whole check ((subject = '') = (body = ''))
);
call plateday_tenant('letter_wording', 'select, insert');
comment on column letter_wording.kind is 'plain';
comment on column letter_wording.language is 'plain';
comment on column letter_wording.subject is 'plain';
comment on column letter_wording.body is 'plain';
comment on column letter_wording.who is 'house';
