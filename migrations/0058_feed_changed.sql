-- The doors of calendar feeds tell when what they show was last changed, for calendars that ask by time and not by tag.

drop function plateday_feed_door(text, bytea);
create function plateday_feed_door(address text, secret_hash bytea)
returns table (
  studio_id uuid, link_id uuid, kind text, subject_id uuid, revoked boolean, counter bigint, raised_at timestamptz
)
language plpgsql as $$
declare found uuid;
begin
  select d.studio_id into found from studio_directory d where d.slug = address;
  if found is null then return; end if;
  perform set_config('app.studio_id', found::text, true);
  return query
    select l.studio_id, l.link_id, l.kind, l.subject_id, l.revoked_at is not null, s.calendar_counter,
           coalesce(s.calendar_raised_at, s.created_at)
    from link l join studio s on s.studio_id = l.studio_id
    where l.studio_id = found and l.purpose = 'feed' and l.token_hash = secret_hash;
end $$;
revoke execute on function plateday_feed_door from public;
grant execute on function plateday_feed_door to plateday_app;

drop function plateday_public_feed_door(text);
create function plateday_public_feed_door(address text)
returns table (
  studio_id uuid, link_id uuid, kind text, subject_id uuid, revoked boolean, counter bigint, raised_at timestamptz
)
language plpgsql as $$
declare found uuid;
begin
  select d.studio_id into found from studio_directory d where d.slug = address;
  if found is null then return; end if;
  perform set_config('app.studio_id', found::text, true);
  return query
    select s.studio_id, s.studio_id, 'workshops'::text, s.studio_id, false, s.calendar_counter,
           coalesce(s.calendar_raised_at, s.created_at)
    from studio s where s.studio_id = found;
end $$;
revoke execute on function plateday_public_feed_door from public;
grant execute on function plateday_public_feed_door to plateday_app;

-- A feed's window is found from its first day on, however long the history before it.
create index occupancy_by_end on occupancy (studio_id, ends_at);
