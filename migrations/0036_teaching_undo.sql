-- Undoing what the desk did last with a sign-up, while nobody was told of it.

alter table sign_up
  -- the state that undoing leads back to, and the turn of the act; null where there is nothing to undo
  add undo_to text check (undo_to in ('requested', 'waiting', 'signed', 'withdrawn')),
  add undo_turn int check (undo_turn >= 0),
  -- turns that were undone: nobody is told of them
  add undone int[] not null default '{}',
  add check ((undo_to is null) = (undo_turn is null));
