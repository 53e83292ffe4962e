-- Teaching days in calendars: the revision of a day and of a sign-up, set in the act that changes what calendars show.

-- Null until it is changed after it was made.
alter table teaching_session
  add sequence int not null default 0 check (sequence >= 0),
  add revised_at timestamptz,
  -- when it was open for the first time: the public calendar has known it since
  add opened_at timestamptz;

-- The sequence of a sign-up is its turns; `firm_at` is when it had a place, so that its own calendar has known it since.
alter table sign_up
  add revised_at timestamptz,
  add firm_at timestamptz;

-- Days and places there were before are taken as known to calendars.
do $$
declare one record;
begin
  for one in select studio_id from studio_directory where is_current loop
    perform set_config('app.studio_id', one.studio_id::text, true);
    update teaching_session set opened_at = made_at where studio_id = one.studio_id and state <> 'draft';
    update sign_up set firm_at = coalesce(decided_at, asked_at)
    where studio_id = one.studio_id and state in ('signed', 'attended', 'did_not_come', 'released');
  end loop;
  perform set_config('app.studio_id', '', true);
end $$;

-- The door of the calendar that anybody may follow: no secret, the studio's own counter, one statement.
create function plateday_public_feed_door(address text)
returns table (studio_id uuid, link_id uuid, kind text, subject_id uuid, revoked boolean, counter bigint)
language plpgsql as $$
declare found uuid;
begin
  select d.studio_id into found from studio_directory d where d.slug = address;
  if found is null then return; end if;
  perform set_config('app.studio_id', found::text, true);
  return query
    select s.studio_id, s.studio_id, 'workshops'::text, s.studio_id, false, s.calendar_counter
    from studio s where s.studio_id = found;
end $$;
revoke execute on function plateday_public_feed_door from public;
grant execute on function plateday_public_feed_door to plateday_app;
