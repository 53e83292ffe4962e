-- Several calendar links of one kind, told apart by a name, and by what kind of program each was fetched last.
alter table link
  add name text not null default '' check (length(name) <= 60),
  add fetched_by text not null default ''
    check (fetched_by in ('', 'phone', 'computer', 'service', 'browser', 'other'));

drop index link_that_stays;
create unique index link_that_stays on link (studio_id, purpose, subject_id, kind, name)
  where revoked_at is null and expires_at is null;

-- Whether somebody has the journeys there and back in their calendar. The turns count what changed of them since they
-- were first asked for, so that the revision of an entry rises with it; null until they were.
alter table contact
  add travel_shown boolean not null default false,
  add travel_turns int not null default 0 check (travel_turns >= 0),
  add travel_revised_at timestamptz,
  add constraint contact_travel_revised check ((travel_turns = 0) = (travel_revised_at is null));

comment on column link.name is 'house';
comment on column link.fetched_by is 'house';
