-- The language in which letters to somebody are written: the one in which they asked, until it is changed.

alter table contact add language text not null default 'en'
  constraint contact_language_known check (language in ('en', 'fr'));
comment on column contact.language is 'plain';
