-- A list that must hold something is counted by cardinality: array_length of an empty one is null, which a
-- check lets pass. And of each link that stays until it is ended a subject has one.

alter table rhythm drop constraint rhythm_starts_check,
  add constraint rhythm_has_starts check (cardinality(starts) between 1 and 48);
alter table sitting drop constraint sitting_check2,
  add constraint sitting_suits_some_day check (any_day_from is not null or cardinality(days) >= 1);

-- Where there are several already, the newest is the one that is shown, and stays.
do $$
declare
  one record;
begin
  for one in select studio_id from studio_directory where is_current loop
    perform set_config('app.studio_id', one.studio_id::text, true);
    update link l set revoked_at = l.created_at
      where l.studio_id = one.studio_id and l.revoked_at is null and l.expires_at is null and exists (
        select from link newer where newer.studio_id = l.studio_id and newer.purpose = l.purpose
          and newer.subject_id = l.subject_id and newer.kind = l.kind and newer.revoked_at is null
          and newer.expires_at is null and (newer.created_at, newer.link_id) > (l.created_at, l.link_id));
  end loop;
  perform set_config('app.studio_id', '', true);
end $$;
create unique index link_that_stays on link (studio_id, purpose, subject_id, kind)
  where revoked_at is null and expires_at is null;
