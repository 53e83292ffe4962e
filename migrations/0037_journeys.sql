-- What people say themselves of their journey: a postcode as they write it, and whatever of the reckoned figures they
-- know better. Null wherever they leave it to us; it holds for all that the contact comes for.
alter table contact
  add home_postcode text not null default '' check (length(home_postcode) <= 20),
  add travel_mode text check (travel_mode in ('walk', 'car', 'coach', 'train', 'ferry', 'flight')),
  -- from door to door, one way
  add travel_minutes int check (travel_minutes between 1 and 10080),
  -- near the studio, before the day
  add travel_night text check (travel_night in ('yes', 'no')),
  -- before the start
  add travel_margin_minutes int check (travel_margin_minutes between 0 and 720);
