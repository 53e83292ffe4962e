-- Whoever wants no reminders: since when; and the secret address behind which a mail program stops them with one click.

alter table contact add reminders_stopped_at timestamptz;
alter table link drop constraint link_purpose_check;
alter table link add constraint link_purpose_check
  check (purpose in ('sign-in', 'place', 'feed', 'invitation', 'reminders'));
