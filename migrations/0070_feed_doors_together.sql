-- Calendars come all at once, most of them of one studio: their doors are found in one look, and the studio named once.
drop function plateday_feed_door(text, bytea);
create function plateday_feed_doors(address text, secret_hashes bytea[])
returns table (
  secret_hash bytea, studio_id uuid, link_id uuid, kind text, subject_id uuid, revoked boolean, counter bigint,
  raised_at timestamptz
)
language plpgsql as $$
declare found uuid;
begin
  select d.studio_id into found from studio_directory d where d.slug = address;
  if found is null then return; end if;
  perform set_config('app.studio_id', found::text, true);
  return query
    select l.token_hash, l.studio_id, l.link_id, l.kind, l.subject_id, l.revoked_at is not null, s.calendar_counter,
           coalesce(s.calendar_raised_at, s.created_at)
    from link l join studio s on s.studio_id = l.studio_id
    where l.studio_id = found and l.purpose = 'feed' and l.token_hash = any (secret_hashes);
end $$;
revoke execute on function plateday_feed_doors from public;
grant execute on function plateday_feed_doors to plateday_app;
