-- Letters that mail does not bring and that nobody has told yet are few among very many, and looked for at each turn of the
-- desk. The index there was holds those that were told as well.

create index mail_untold on mail (studio_id, created_at)
  where told_at is null and state <> 'dropped' and (by_hand <> '' or telephone_now or state = 'parked');
