-- Sessions that can be told apart and ended one by one, one-time codes beside the password, and invitations.

alter table session add column session_id uuid;
-- What the browser said of itself when the session began.
alter table session add column agent text not null default '' check (length(agent) <= 300);
-- The password was right, the code is still to come: such a session opens nothing.
alter table session add column awaits_code boolean not null default false;
update session set session_id = encode(substr(token_hash, 1, 16), 'hex')::uuid;
alter table session alter column session_id set not null;
alter table session add constraint session_once unique (studio_id, session_id);

-- An authenticator's secret is derived from the server's key, like a link's token: a copy of these rows does not hold it.
create table second_factor (
  studio_id uuid not null,
  account_id uuid not null,
  -- A new one makes a new secret, after the old was turned off.
  generation int not null check (generation >= 1),
  -- Null while it is off: nothing is asked.
  confirmed_at timestamptz,
  -- The time step of the last code taken: none is taken twice (RFC 6238, 5.2).
  last_step bigint not null default 0,
  primary key (studio_id, account_id),
  foreign key (studio_id, account_id) references account on delete cascade
);
call plateday_tenant('second_factor');

create table recovery_code (
  studio_id uuid not null,
  code_hash bytea not null check (length(code_hash) = 32),
  account_id uuid not null,
  used_at timestamptz,
  primary key (studio_id, code_hash),
  foreign key (studio_id, account_id) references account on delete cascade
);
call plateday_tenant('recovery_code');

alter table link drop constraint link_purpose_check;
alter table link add constraint link_purpose_check
  check (purpose in ('sign-in', 'place', 'feed', 'invitation'));

comment on column session.agent is 'house';
comment on column recovery_code.code_hash is 'secret';
