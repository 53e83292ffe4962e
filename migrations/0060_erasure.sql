-- Erasing a person: what may be changed for it where rows are only added to, the log of it that a restore reads, who has
-- asked for it, and how long the studio keeps what.

create function plateday_only_while_erasing() returns trigger language plpgsql as $$
begin
  if current_setting('app.erasing', true) is distinct from 'yes' then
    raise exception 'permission denied: % is only added to', tg_table_name using errcode = 'insufficient_privilege';
  end if;
  return new;
end $$;

-- Ledger and history stay as they were; only the one column with words can be emptied, and only while erasing.
grant update (note) on history to plateday_app;
grant update (note) on bath_event to plateday_app;
grant update (reason) on movement to plateday_app;
create trigger only_while_erasing before update on history for each row execute function plateday_only_while_erasing();
create trigger only_while_erasing before update on bath_event for each row execute function plateday_only_while_erasing();
create trigger only_while_erasing before update on movement for each row execute function plateday_only_while_erasing();
-- What could be undone for a minute goes with the person.
grant delete on sitting_act to plateday_app;

alter table contact
  -- They asked on their own page to be erased.
  add erase_asked_at timestamptz,
  add erased_at timestamptz,
  drop constraint contact_reachable,
  add constraint contact_reachable check (erased_at is not null or case reach_by
    when 'email' then email <> '' when 'telephone' then telephone <> '' else postal_address <> '' end);

-- The erasure log: ids only, so that it can be kept for good.
create table erasure (
  studio_id uuid not null references studio (studio_id),
  contact_id uuid not null,
  at timestamptz not null,
  -- who of the studio, or "a rule of keeping"
  who text not null,
  primary key (studio_id, contact_id)
);
call plateday_tenant('erasure', 'select, insert');
comment on column erasure.who is 'house';

-- How long what is kept; null for never erased.
create table keeping (
  studio_id uuid primary key references studio (studio_id),
  -- requests that nobody answered, in days since they were asked
  unanswered_days int check (unanswered_days between 7 and 3650),
  -- declined, withdrawn, lapsed, given back, called off: days since the decision
  refused_days int check (refused_days between 7 and 3650),
  -- months since the last day of somebody who came
  made_months int check (made_months between 1 and 1200),
  -- days since a letter was sent
  letters_days int check (letters_days between 7 and 3650)
);
call plateday_tenant('keeping');
