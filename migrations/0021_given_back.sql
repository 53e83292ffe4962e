-- Whether a place that has no room any more was given back, or not taken, by whom it was for; not where the studio
-- called it off or moved it. Only what people give back comes free for the list.
alter table occupancy add given_back boolean not null default false,
  add constraint occupancy_given_back_has_no_room check (not (given_back and holds));

do $$
declare
  one record;
begin
  for one in select studio_id from studio_directory where is_current loop
    perform set_config('app.studio_id', one.studio_id::text, true);
    update occupancy o set given_back = true
      where o.studio_id = one.studio_id and o.kind = 'sitting' and not o.holds
        and not exists (select from offer f where f.studio_id = o.studio_id and f.occupancy_id = o.occupancy_id
          and f.answer = 'called off')
        -- the line of history is written in the transaction that frees the room
        and not exists (select from history h where h.studio_id = o.studio_id and h.about_id = o.held_for
          and h.event = 'call_off' and h.at between o.revised_at and o.revised_at + interval '1 minute');
  end loop;
  perform set_config('app.studio_id', '', true);
end $$;
