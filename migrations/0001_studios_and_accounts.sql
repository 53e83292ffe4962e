-- Studios, the people who run them, and the secret links they and their sitters hold.
-- Rule of every table but the directory: studio_id stands first in its key, row-level security is
-- forced, and the app's role sees a row only while app.studio_id names its studio.

create extension if not exists btree_gist;
grant usage on schema public to plateday_app, plateday_jobs;

create function plateday_studio() returns uuid language sql stable
  return nullif(current_setting('app.studio_id', true), '')::uuid;

-- Makes a table a tenant table. `may` lists what the app may do with its rows.
create procedure plateday_tenant(tenant regclass, may text default 'select, insert, update, delete')
language plpgsql as $$
begin
  execute format('alter table %s enable row level security', tenant);
  execute format('alter table %s force row level security', tenant);
  execute format('create policy own_studio on %s using (studio_id = plateday_studio())
                  with check (studio_id = plateday_studio())', tenant);
  execute format('grant %s on %s to plateday_app', may, tenant);
end $$;

create table studio_directory (
  slug text primary key check (slug ~ '^[a-z0-9](-?[a-z0-9]+)*$' and length(slug) <= 60),
  studio_id uuid not null,
  is_current boolean not null
);
create unique index studio_directory_current on studio_directory (studio_id) where is_current;
alter table studio_directory enable row level security;
alter table studio_directory force row level security;
create policy read_all on studio_directory for select using (true);
create policy write_own on studio_directory for all
  using (studio_id = plateday_studio()) with check (studio_id = plateday_studio());
grant select, insert, update, delete on studio_directory to plateday_app;

create table studio (
  studio_id uuid primary key,
  name text not null check (length(name) between 1 and 120),
  welcome text not null default '',
  address text not null default '',
  email text not null,
  telephone text not null default '',
  zone text not null,
  latitude double precision not null check (latitude between -90 and 90),
  longitude double precision not null check (longitude between -180 and 180),
  window_kind text not null check (window_kind in ('north window', 'open shade', 'glass room')),
  light_floor_degrees double precision not null check (light_floor_degrees between 0 and 60),
  reference_seconds double precision not null check (reference_seconds > 0),
  reference_altitude_degrees double precision not null check (reference_altitude_degrees between 1 and 90),
  exposure_cap_seconds double precision not null check (exposure_cap_seconds > 0),
  horizon_months int not null check (horizon_months between 1 and 24),
  least_notice_days int not null check (least_notice_days between 0 and 365),
  reserve_quantity text not null check (reserve_quantity in ('likely', 'ninety')),
  calendar_counter bigint not null default 0,
  created_at timestamptz not null
);
call plateday_tenant('studio');

create table account (
  studio_id uuid not null references studio,
  account_id uuid not null,
  role text not null check (role in ('owner', 'assistant')),
  name text not null check (length(name) between 1 and 120),
  email text not null check (email = lower(email)),
  password_hash text,
  created_at timestamptz not null,
  primary key (studio_id, account_id),
  constraint account_email unique (studio_id, email)
);
call plateday_tenant('account');

create table session (
  studio_id uuid not null,
  token_hash bytea not null check (length(token_hash) = 32),
  account_id uuid not null,
  created_at timestamptz not null,
  seen_at timestamptz not null,
  primary key (studio_id, token_hash),
  foreign key (studio_id, account_id) references account on delete cascade
);
call plateday_tenant('session');

-- A secret link. The token is derived (see platform/security/tokens.ts); only its hash is here.
create table link (
  studio_id uuid not null references studio,
  link_id uuid not null,
  purpose text not null check (purpose in ('sign-in', 'place', 'feed')),
  subject_id uuid not null,
  kind text not null default '',
  generation int not null default 1 check (generation >= 1),
  token_hash bytea not null check (length(token_hash) = 32),
  created_at timestamptz not null,
  expires_at timestamptz,
  used_at timestamptz,
  revoked_at timestamptz,
  fetched_at timestamptz,
  primary key (studio_id, link_id),
  constraint link_token unique (studio_id, token_hash)
);
create index link_subject on link (studio_id, subject_id, purpose);
call plateday_tenant('link');

-- The answer given to a keyed POST, so that the same request sent twice is done once.
create table idempotency (
  studio_id uuid not null references studio,
  key text not null check (length(key) between 8 and 255),
  act text not null,
  fingerprint bytea not null,
  answer jsonb not null,
  created_at timestamptz not null,
  primary key (studio_id, act, key)
);
call plateday_tenant('idempotency');

-- Who did what, in words; rows are only ever added.
create table history (
  studio_id uuid not null references studio,
  history_id bigint generated always as identity,
  at timestamptz not null,
  who text not null,
  about_kind text not null,
  about_id uuid not null,
  event text not null,
  note text not null default '',
  primary key (studio_id, history_id)
);
create index history_about on history (studio_id, about_id, history_id);
call plateday_tenant('history', 'select, insert');
