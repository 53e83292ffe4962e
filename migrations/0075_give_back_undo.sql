-- A place that the desk gave back for somebody on the telephone can be undone as well, while nobody was told.
alter table sitting_act drop constraint sitting_act_event_check;
alter table sitting_act add constraint sitting_act_event_check
  check (event in ('approve', 'decline', 'wait', 'mark', 'release'));
