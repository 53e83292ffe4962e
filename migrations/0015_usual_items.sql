-- Of several items that could serve a plate (two fixers, two collodions, clear and black glass) one is the usual:
-- what sittings are reckoned with. Until an owner says otherwise it is the one that was taken before, first by name.
alter table item add usual boolean not null default false;

do $$
declare
  one record;
begin
  for one in select studio_id from studio_directory where is_current loop
    perform set_config('app.studio_id', one.studio_id::text, true);
    update item set usual = true where studio_id = one.studio_id and item_id in (
      select distinct on (kind, plate_size_id) item_id from item
      where studio_id = one.studio_id and not archived
        and kind in ('glass', 'collodion', 'developer', 'fixer', 'varnish')
      order by kind, plate_size_id, name, item_id);
  end loop;
  perform set_config('app.studio_id', '', true);
end $$;

alter table item add constraint item_usual_is_kept check (not (usual and archived));
create unique index item_usual on item (studio_id, kind, plate_size_id) nulls not distinct where usual;
