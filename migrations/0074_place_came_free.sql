-- When a place at a teaching day last came free otherwise than by an offer that was not taken: whoever did not take an
-- offer since is not asked again for the same place.
alter table teaching_session add column freed_at timestamptz;
