-- What puts jobs on the queue is planned once, not each time: it finds everything by its key, however many there are.

set local role plateday_jobs;
alter function plateday_queue.enqueue_all(text[], jsonb[], timestamptz[], text[])
  set plan_cache_mode = force_generic_plan;
reset role;
