role plateday_app

role plateday_jobs

extension btree_gist

schema plateday_queue
 owner plateday_jobs
 grant usage to plateday_app

schema public
 grant usage to plateday_app
 grant usage to plateday_jobs
 grant usage to public

table plateday_queue.heartbeat
 owner plateday_jobs
 worker_id text not null
 seen_at timestamp with time zone not null
 constraint heartbeat_pkey PRIMARY KEY (worker_id)

table account
 studio_id uuid not null
 account_id uuid not null
 role text not null -- plain
 name text not null -- house
 email text not null -- house
 password_hash text -- secret
 created_at timestamp with time zone not null
 constraint account_email_check CHECK ((email = lower(email)))
 constraint account_name_check CHECK (((length(name) >= 1) AND (length(name) <= 120)))
 constraint account_role_check CHECK ((role = ANY (ARRAY['owner'::text, 'assistant'::text])))
 constraint account_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint account_pkey PRIMARY KEY (studio_id, account_id)
 constraint account_email UNIQUE (studio_id, email)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table attendance
 studio_id uuid not null
 who text not null -- house
 weekdays integer[] not null
 also date[] not null default '{}'::date[]
 away date[] not null default '{}'::date[]
 constraint attendance_weekdays_check CHECK ((weekdays <@ ARRAY[1, 2, 3, 4, 5, 6, 7]))
 constraint attendance_who_check CHECK ((who = ANY (ARRAY['owner'::text, 'helper'::text])))
 constraint attendance_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint attendance_pkey PRIMARY KEY (studio_id, who)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table bath
 studio_id uuid not null
 bath_id uuid not null
 name text not null -- plain
 tank text not null -- plain
 plate_size_id uuid not null
 volume bigint not null
 least_volume bigint not null
 target_strength integer not null
 least_strength integer not null
 care_after_plates integer not null
 lot_id uuid
 state text not null -- plain
 state_since date not null
 state_until date
 note text not null default ''::text -- words
 constraint bath_care_after_plates_check CHECK (((care_after_plates >= 1) AND (care_after_plates <= 1000)))
 constraint bath_check CHECK ((least_volume <= volume))
 constraint bath_check1 CHECK ((least_strength <= target_strength))
 constraint bath_check2 CHECK (((state_until IS NULL) OR (state = ANY (ARRAY['sunning'::text, 'resting'::text, 'filtering'::text]))))
 constraint bath_check3 CHECK (((state_until IS NULL) OR (state_until >= state_since)))
 constraint bath_least_strength_check CHECK (((least_strength >= 1) AND (least_strength <= 500000)))
 constraint bath_least_volume_check CHECK ((least_volume > 0))
 constraint bath_name_check CHECK (((length(name) >= 1) AND (length(name) <= 80)))
 constraint bath_state_check CHECK ((state = ANY (ARRAY['working'::text, 'sunning'::text, 'resting'::text, 'filtering'::text, 'suspect'::text, 'retired'::text])))
 constraint bath_tank_check CHECK ((tank = ANY (ARRAY['upright tank'::text, 'tray'::text])))
 constraint bath_target_strength_check CHECK (((target_strength >= 1) AND (target_strength <= 500000)))
 constraint bath_volume_check CHECK ((volume > 0))
 constraint bath_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint bath_studio_id_lot_id_fkey FOREIGN KEY (studio_id, lot_id) REFERENCES lot(studio_id, lot_id)
 constraint bath_studio_id_plate_size_id_fkey FOREIGN KEY (studio_id, plate_size_id) REFERENCES plate_size(studio_id, plate_size_id)
 constraint bath_pkey PRIMARY KEY (studio_id, bath_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table bath_event
 studio_id uuid not null
 event_id uuid not null
 bath_id uuid not null
 seq bigint not null generated always as identity
 day date not null
 kind text not null -- plain
 method text -- plain
 density numeric(6,4)
 temperature numeric(4,1)
 strength integer
 volume bigint
 crystals bigint
 area bigint
 plates integer
 ph numeric(3,1)
 state text -- plain
 until date
 takes_back uuid
 note text not null default ''::text granted grant update to plateday_app -- words
 who text not null -- house
 at timestamp with time zone not null
 constraint bath_event_area_check CHECK ((area > 0))
 constraint bath_event_check CHECK (
CASE kind
    WHEN 'made'::text THEN ((strength IS NOT NULL) AND (volume IS NOT NULL))
    WHEN 'measured'::text THEN ((strength IS NOT NULL) AND (method IS NOT NULL))
    WHEN 'topped up'::text THEN ((crystals IS NOT NULL) AND (volume IS NOT NULL))
    WHEN 'poured'::text THEN ((area IS NOT NULL) AND (plates IS NOT NULL))
    WHEN 'state'::text THEN (state IS NOT NULL)
    WHEN 'acidity'::text THEN (ph IS NOT NULL)
    WHEN 'note'::text THEN (note <> ''::text)
    WHEN 'taken back'::text THEN (takes_back IS NOT NULL)
    ELSE true
END)
 constraint bath_event_crystals_check CHECK ((crystals >= 0))
 constraint bath_event_density_check CHECK (((density >= 0.9) AND (density <= (2)::numeric)))
 constraint bath_event_kind_check CHECK ((kind = ANY (ARRAY['made'::text, 'measured'::text, 'topped up'::text, 'poured'::text, 'sunned'::text, 'filtered'::text, 'rested'::text, 'state'::text, 'acidity'::text, 'note'::text, 'taken back'::text])))
 constraint bath_event_method_check CHECK ((method = ANY (ARRAY['hydrometer'::text, 'titration'::text])))
 constraint bath_event_note_check CHECK ((length(note) <= 1000))
 constraint bath_event_ph_check CHECK (((ph >= (0)::numeric) AND (ph <= (14)::numeric)))
 constraint bath_event_plates_check CHECK ((plates > 0))
 constraint bath_event_state_check CHECK ((state = ANY (ARRAY['working'::text, 'sunning'::text, 'resting'::text, 'filtering'::text, 'suspect'::text, 'retired'::text])))
 constraint bath_event_strength_check CHECK (((strength >= 0) AND (strength <= 500000)))
 constraint bath_event_temperature_check CHECK (((temperature >= ('-5'::integer)::numeric) AND (temperature <= (50)::numeric)))
 constraint bath_event_volume_check CHECK ((volume >= 0))
 constraint bath_event_studio_id_bath_id_fkey FOREIGN KEY (studio_id, bath_id) REFERENCES bath(studio_id, bath_id)
 constraint bath_event_studio_id_takes_back_fkey FOREIGN KEY (studio_id, takes_back) REFERENCES bath_event(studio_id, event_id)
 constraint bath_event_pkey PRIMARY KEY (studio_id, event_id)
 constraint bath_event_studio_id_takes_back_key UNIQUE (studio_id, takes_back)
 CREATE INDEX bath_event_order ON public.bath_event USING btree (studio_id, bath_id, day, seq)
 CREATE TRIGGER only_while_erasing BEFORE UPDATE ON public.bath_event FOR EACH ROW EXECUTE FUNCTION plateday_only_while_erasing()
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select to plateday_app

table briefing
 studio_id uuid not null
 session_id uuid not null
 emergency_number text not null default ''::text -- plain
 hospital text not null default ''::text -- plain
 eyewash text not null default ''::text -- plain
 teacher text not null default ''::text -- house
 youngest integer
 saved_at timestamp with time zone not null
 constraint briefing_emergency_number_check CHECK ((length(emergency_number) <= 40))
 constraint briefing_eyewash_check CHECK ((length(eyewash) <= 200))
 constraint briefing_hospital_check CHECK ((length(hospital) <= 200))
 constraint briefing_teacher_check CHECK ((length(teacher) <= 200))
 constraint briefing_youngest_check CHECK (((youngest >= 0) AND (youngest <= 120)))
 constraint briefing_studio_id_session_id_fkey FOREIGN KEY (studio_id, session_id) REFERENCES teaching_session(studio_id, session_id)
 constraint briefing_pkey PRIMARY KEY (studio_id, session_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table bring_in
 studio_id uuid not null
 bring_in_id uuid not null
 what text not null -- plain
 at timestamp with time zone not null
 who text not null -- house
 sum bytea not null -- secret
 up_to bigint not null
 undone_at timestamp with time zone
 undone_by text not null default ''::text -- house
 constraint bring_in_check CHECK (((undone_at IS NULL) = (undone_by = ''::text)))
 constraint bring_in_sum_check CHECK ((length(sum) = 32))
 constraint bring_in_what_check CHECK ((what = ANY (ARRAY['diary'::text, 'shelf'::text, 'plates'::text])))
 constraint bring_in_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint bring_in_pkey PRIMARY KEY (studio_id, bring_in_id)
 CREATE INDEX bring_in_sum ON public.bring_in USING btree (studio_id, sum)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select, update to plateday_app

table bring_in_draft
 studio_id uuid not null
 draft_id uuid not null
 what text not null -- plain
 source text not null -- personal: row, of another
 choices jsonb not null -- plain
 guessed boolean not null
 saved_at timestamp with time zone not null
 constraint bring_in_draft_what_check CHECK ((what = ANY (ARRAY['diary'::text, 'shelf'::text, 'plates'::text])))
 constraint bring_in_draft_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint bring_in_draft_pkey PRIMARY KEY (studio_id, draft_id)
 CREATE INDEX bring_in_draft_saved ON public.bring_in_draft USING btree (studio_id, saved_at)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table bring_in_line
 studio_id uuid not null
 bring_in_id uuid not null
 line integer not null
 became_id uuid not null
 constraint bring_in_line_line_check CHECK ((line >= 1))
 constraint bring_in_line_studio_id_bring_in_id_fkey FOREIGN KEY (studio_id, bring_in_id) REFERENCES bring_in(studio_id, bring_in_id)
 constraint bring_in_line_pkey PRIMARY KEY (studio_id, bring_in_id, line)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select to plateday_app

table class_attendance
 studio_id uuid not null
 student_id uuid not null
 session_id uuid not null
 how text not null -- plain
 constraint class_attendance_how_check CHECK ((how = ANY (ARRAY['present'::text, 'late'::text, 'did_not_come'::text])))
 constraint class_attendance_studio_id_session_id_fkey FOREIGN KEY (studio_id, session_id) REFERENCES class_record(studio_id, session_id) ON DELETE CASCADE
 constraint class_attendance_studio_id_student_id_fkey FOREIGN KEY (studio_id, student_id) REFERENCES student(studio_id, student_id)
 constraint class_attendance_pkey PRIMARY KEY (studio_id, student_id)
 CREATE INDEX class_attendance_session ON public.class_attendance USING btree (studio_id, session_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table class_held
 studio_id uuid not null
 session_id uuid not null
 holder uuid not null
 lot_id uuid not null
 quantity bigint not null
 constraint class_held_quantity_check CHECK ((quantity > 0))
 constraint class_held_studio_id_lot_id_fkey FOREIGN KEY (studio_id, lot_id) REFERENCES lot(studio_id, lot_id)
 constraint class_held_studio_id_session_id_fkey FOREIGN KEY (studio_id, session_id) REFERENCES class_record(studio_id, session_id) ON DELETE CASCADE
 constraint class_held_pkey PRIMARY KEY (studio_id, session_id, holder, lot_id)
 CREATE INDEX class_held_lot ON public.class_held USING btree (studio_id, lot_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table class_record
 studio_id uuid not null
 session_id uuid not null
 day date not null
 moves_stock boolean not null
 note text not null default ''::text -- words
 written_at timestamp with time zone not null
 constraint class_record_note_check CHECK ((length(note) <= 1000))
 constraint class_record_studio_id_session_id_fkey FOREIGN KEY (studio_id, session_id) REFERENCES teaching_session(studio_id, session_id)
 constraint class_record_pkey PRIMARY KEY (studio_id, session_id)
 CREATE INDEX class_record_day ON public.class_record USING btree (studio_id, day)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table class_tries
 studio_id uuid not null
 session_id uuid not null
 maker uuid not null
 plate_size_id uuid not null
 tries integer not null
 keepers integer not null
 constraint class_tries_check CHECK (((keepers >= 0) AND (keepers <= tries)))
 constraint class_tries_tries_check CHECK (((tries >= 0) AND (tries <= 1000)))
 constraint class_tries_studio_id_plate_size_id_fkey FOREIGN KEY (studio_id, plate_size_id) REFERENCES plate_size(studio_id, plate_size_id)
 constraint class_tries_studio_id_session_id_fkey FOREIGN KEY (studio_id, session_id) REFERENCES class_record(studio_id, session_id) ON DELETE CASCADE
 constraint class_tries_pkey PRIMARY KEY (studio_id, session_id, maker, plate_size_id)
 CREATE INDEX class_tries_size ON public.class_tries USING btree (studio_id, plate_size_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table class_use
 studio_id uuid not null
 session_id uuid not null
 what text not null -- plain
 quantity bigint not null
 constraint class_use_quantity_check CHECK ((quantity >= 0))
 constraint class_use_what_check CHECK ((what = ANY (ARRAY['collodion'::text, 'developer'::text, 'fixer'::text, 'varnish'::text, 'silver'::text])))
 constraint class_use_studio_id_session_id_fkey FOREIGN KEY (studio_id, session_id) REFERENCES class_record(studio_id, session_id) ON DELETE CASCADE
 constraint class_use_pkey PRIMARY KEY (studio_id, session_id, what)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table class_used
 studio_id uuid not null
 session_id uuid not null
 lot_id uuid not null
 quantity bigint not null
 constraint class_used_quantity_check CHECK ((quantity > 0))
 constraint class_used_studio_id_lot_id_fkey FOREIGN KEY (studio_id, lot_id) REFERENCES lot(studio_id, lot_id)
 constraint class_used_studio_id_session_id_fkey FOREIGN KEY (studio_id, session_id) REFERENCES class_record(studio_id, session_id) ON DELETE CASCADE
 constraint class_used_pkey PRIMARY KEY (studio_id, session_id, lot_id)
 CREATE INDEX class_used_lot ON public.class_used USING btree (studio_id, lot_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table closure
 studio_id uuid not null
 closure_id uuid not null
 title text not null default ''::text -- words
 wall_from timestamp without time zone not null
 wall_until timestamp without time zone not null
 constraint closure_check CHECK ((wall_from < wall_until))
 constraint closure_title_check CHECK ((length(title) <= 120))
 constraint closure_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint closure_pkey PRIMARY KEY (studio_id, closure_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table consent
 studio_id uuid not null
 consent_id uuid not null
 contact_id uuid not null
 sitter_id uuid
 purpose text not null -- personal: kept
 version integer not null
 given_at timestamp with time zone not null
 given_how text not null -- personal: kept
 given_by text not null -- house
 withdrawn_at timestamp with time zone
 withdrawn_by text not null default ''::text -- house
 constraint consent_contact_is_the_contacts CHECK (((purpose = 'contact'::text) = (sitter_id IS NULL)))
 constraint consent_given_how_check CHECK ((given_how = ANY (ARRAY['page'::text, 'told'::text])))
 constraint consent_purpose_check CHECK ((purpose = ANY (ARRAY['contact'::text, 'record'::text, 'archive'::text, 'show'::text])))
 constraint consent_withdrawn_by_somebody CHECK (((withdrawn_at IS NULL) = (withdrawn_by = ''::text)))
 constraint consent_studio_id_contact_id_fkey FOREIGN KEY (studio_id, contact_id) REFERENCES contact(studio_id, contact_id)
 constraint consent_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint consent_studio_id_purpose_version_fkey FOREIGN KEY (studio_id, purpose, version) REFERENCES wording(studio_id, purpose, version)
 constraint consent_studio_id_sitter_id_fkey FOREIGN KEY (studio_id, sitter_id) REFERENCES sitter(studio_id, sitter_id)
 constraint consent_pkey PRIMARY KEY (studio_id, consent_id)
 CREATE UNIQUE INDEX consent_one_at_a_time ON public.consent USING btree (studio_id, contact_id, purpose, sitter_id) NULLS NOT DISTINCT WHERE (withdrawn_at IS NULL)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select, update to plateday_app

table contact
 studio_id uuid not null
 contact_id uuid not null
 name text not null -- personal: erased
 reach_by text not null -- personal: kept
 email text not null default ''::text -- personal: emptied
 telephone text not null default ''::text -- personal: emptied
 postal_address text not null default ''::text -- personal: emptied
 home_name text not null default ''::text -- personal: emptied
 home_latitude double precision -- personal: emptied
 home_longitude double precision -- personal: emptied
 home_zone text -- personal: emptied
 created_at timestamp with time zone not null
 home_postcode text not null default ''::text -- personal: emptied
 travel_mode text -- personal: emptied
 travel_minutes integer -- personal: emptied
 travel_night text -- personal: emptied
 travel_margin_minutes integer -- personal: emptied
 travel_shown boolean not null default false
 travel_turns integer not null default 0
 travel_revised_at timestamp with time zone
 erase_asked_at timestamp with time zone
 erased_at timestamp with time zone
 reminders_stopped_at timestamp with time zone
 language text not null default 'en'::text -- plain
 constraint contact_home_postcode_check CHECK ((length(home_postcode) <= 20))
 constraint contact_language_known CHECK ((language = ANY (ARRAY['en'::text, 'fr'::text])))
 constraint contact_name_check CHECK (((length(name) >= 1) AND (length(name) <= 200)))
 constraint contact_reach_by_check CHECK ((reach_by = ANY (ARRAY['email'::text, 'telephone'::text, 'letter'::text])))
 constraint contact_reachable CHECK (((erased_at IS NOT NULL) OR
CASE reach_by
    WHEN 'email'::text THEN (email <> ''::text)
    WHEN 'telephone'::text THEN (telephone <> ''::text)
    ELSE (postal_address <> ''::text)
END))
 constraint contact_travel_margin_minutes_check CHECK (((travel_margin_minutes >= 0) AND (travel_margin_minutes <= 720)))
 constraint contact_travel_minutes_check CHECK (((travel_minutes >= 1) AND (travel_minutes <= 10080)))
 constraint contact_travel_mode_check CHECK ((travel_mode = ANY (ARRAY['walk'::text, 'car'::text, 'coach'::text, 'train'::text, 'ferry'::text, 'flight'::text])))
 constraint contact_travel_night_check CHECK ((travel_night = ANY (ARRAY['yes'::text, 'no'::text])))
 constraint contact_travel_revised CHECK (((travel_turns = 0) = (travel_revised_at IS NULL)))
 constraint contact_travel_turns_check CHECK ((travel_turns >= 0))
 constraint contact_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint contact_pkey PRIMARY KEY (studio_id, contact_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table day_actuals
 studio_id uuid not null
 day date not null
 made_by text not null -- plain
 actuals_id uuid not null
 note text not null default ''::text -- words
 constraint day_actuals_made_by_check CHECK ((made_by = ANY (ARRAY['sittings'::text, 'beginners'::text])))
 constraint day_actuals_note_check CHECK ((length(note) <= 1000))
 constraint day_actuals_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint day_actuals_pkey PRIMARY KEY (studio_id, day, made_by)
 constraint day_actuals_studio_id_actuals_id_key UNIQUE (studio_id, actuals_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table day_letter_rule
 studio_id uuid not null
 hour integer not null
 is_on boolean not null
 constraint day_letter_rule_hour_check CHECK (((hour >= 4) AND (hour <= 21)))
 constraint day_letter_rule_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint day_letter_rule_pkey PRIMARY KEY (studio_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table day_material
 studio_id uuid not null
 item_id uuid not null
 quantity bigint not null
 constraint day_material_quantity_check CHECK ((quantity > 0))
 constraint day_material_studio_id_item_id_fkey FOREIGN KEY (studio_id, item_id) REFERENCES item(studio_id, item_id)
 constraint day_material_pkey PRIMARY KEY (studio_id, item_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table day_poured
 studio_id uuid not null
 day date not null
 bath_id uuid not null
 event_id uuid not null
 constraint day_poured_studio_id_bath_id_fkey FOREIGN KEY (studio_id, bath_id) REFERENCES bath(studio_id, bath_id)
 constraint day_poured_studio_id_event_id_fkey FOREIGN KEY (studio_id, event_id) REFERENCES bath_event(studio_id, event_id)
 constraint day_poured_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint day_poured_pkey PRIMARY KEY (studio_id, day, bath_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table day_settled
 studio_id uuid not null
 day date not null
 held_for uuid not null
 lot_id uuid not null
 quantity bigint not null
 constraint day_settled_quantity_check CHECK ((quantity > 0))
 constraint day_settled_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint day_settled_studio_id_lot_id_fkey FOREIGN KEY (studio_id, lot_id) REFERENCES lot(studio_id, lot_id)
 constraint day_settled_pkey PRIMARY KEY (studio_id, day, held_for, lot_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table day_tests
 studio_id uuid not null
 plates integer not null
 plate_size_id uuid
 constraint day_tests_check CHECK (((plates = 0) OR (plate_size_id IS NOT NULL)))
 constraint day_tests_plates_check CHECK (((plates >= 0) AND (plates <= 10)))
 constraint day_tests_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint day_tests_studio_id_plate_size_id_fkey FOREIGN KEY (studio_id, plate_size_id) REFERENCES plate_size(studio_id, plate_size_id)
 constraint day_tests_pkey PRIMARY KEY (studio_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table day_tries
 studio_id uuid not null
 day date not null
 made_by text not null -- plain
 plate_size_id uuid not null
 plate_area bigint not null
 tries integer not null
 keepers integer not null
 constraint day_tries_check CHECK (((keepers >= 0) AND (keepers <= tries)))
 constraint day_tries_plate_area_check CHECK ((plate_area > 0))
 constraint day_tries_tries_check CHECK (((tries >= 1) AND (tries <= 1000)))
 constraint day_tries_studio_id_day_made_by_fkey FOREIGN KEY (studio_id, day, made_by) REFERENCES day_actuals(studio_id, day, made_by) ON DELETE CASCADE
 constraint day_tries_studio_id_plate_size_id_fkey FOREIGN KEY (studio_id, plate_size_id) REFERENCES plate_size(studio_id, plate_size_id)
 constraint day_tries_pkey PRIMARY KEY (studio_id, day, made_by, plate_size_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table day_use
 studio_id uuid not null
 day date not null
 made_by text not null -- plain
 what text not null -- plain
 quantity bigint not null
 constraint day_use_quantity_check CHECK ((quantity >= 0))
 constraint day_use_what_check CHECK ((what = ANY (ARRAY['collodion'::text, 'developer'::text, 'fixer'::text, 'varnish'::text, 'silver'::text])))
 constraint day_use_studio_id_day_made_by_fkey FOREIGN KEY (studio_id, day, made_by) REFERENCES day_actuals(studio_id, day, made_by) ON DELETE CASCADE
 constraint day_use_pkey PRIMARY KEY (studio_id, day, made_by, what)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table erasure
 studio_id uuid not null
 contact_id uuid not null
 at timestamp with time zone not null
 who text not null -- house
 constraint erasure_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint erasure_pkey PRIMARY KEY (studio_id, contact_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select to plateday_app

table exposure_note
 studio_id uuid not null
 note_id uuid not null
 zone text not null -- plain
 wall_at timestamp without time zone not null
 seconds double precision not null
 weather text not null -- plain
 lens text not null -- plain
 f_number double precision not null
 framing text not null -- plain
 magnification double precision not null
 bottle text not null -- plain
 verdict text not null -- plain
 created_at timestamp with time zone not null
 constraint exposure_note_bottle_check CHECK (((length(bottle) >= 1) AND (length(bottle) <= 80)))
 constraint exposure_note_f_number_check CHECK (((f_number >= (0.5)::double precision) AND (f_number <= (128)::double precision)))
 constraint exposure_note_framing_check CHECK (((length(framing) >= 1) AND (length(framing) <= 80)))
 constraint exposure_note_lens_check CHECK (((length(lens) >= 1) AND (length(lens) <= 80)))
 constraint exposure_note_magnification_check CHECK (((magnification >= (0)::double precision) AND (magnification <= (10)::double precision)))
 constraint exposure_note_seconds_check CHECK (((seconds > (0)::double precision) AND (seconds <= (3600)::double precision)))
 constraint exposure_note_verdict_check CHECK ((verdict = ANY (ARRAY['good'::text, 'under'::text, 'over'::text])))
 constraint exposure_note_weather_check CHECK ((weather = ANY (ARRAY['clear'::text, 'broken'::text, 'bright overcast'::text, 'dull'::text, 'heavy'::text])))
 constraint exposure_note_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint exposure_note_pkey PRIMARY KEY (studio_id, note_id)
 CREATE INDEX exposure_note_by_time ON public.exposure_note USING btree (studio_id, wall_at DESC, note_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select to plateday_app

table fault
 studio_id uuid not null
 fault_id uuid not null
 day date not null
 bath_id uuid
 lot_id uuid
 seen text not null -- words
 note text not null default ''::text -- words
 changed text not null default ''::text -- words
 helped text not null default 'not known yet'::text -- words
 who text not null -- house
 at timestamp with time zone not null
 constraint fault_changed_check CHECK ((length(changed) <= 1000))
 constraint fault_helped_check CHECK ((helped = ANY (ARRAY['not known yet'::text, 'yes'::text, 'partly'::text, 'no'::text])))
 constraint fault_note_check CHECK ((length(note) <= 1000))
 constraint fault_seen_check CHECK ((seen = ANY (ARRAY['fog'::text, 'comets'::text, 'oysters'::text, 'crape lines'::text, 'lifting film'::text, 'pinholes'::text, 'something else'::text])))
 constraint fault_studio_id_bath_id_fkey FOREIGN KEY (studio_id, bath_id) REFERENCES bath(studio_id, bath_id)
 constraint fault_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint fault_studio_id_lot_id_fkey FOREIGN KEY (studio_id, lot_id) REFERENCES lot(studio_id, lot_id)
 constraint fault_pkey PRIMARY KEY (studio_id, fault_id)
 CREATE INDEX fault_by_day ON public.fault USING btree (studio_id, day)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select, update to plateday_app

table formula
 studio_id uuid not null
 formula_id uuid not null
 item_kind text not null -- plain
 name text not null -- plain
 own boolean not null default false
 starter_key text -- plain
 current_version integer not null
 archived boolean not null default false
 constraint formula_current_version_check CHECK ((current_version >= 1))
 constraint formula_item_kind_check CHECK ((item_kind = ANY (ARRAY['glass'::text, 'collodion'::text, 'developer'::text, 'fixer'::text, 'varnish'::text, 'bath'::text, 'chemical'::text, 'supply'::text, 'gear'::text])))
 constraint formula_name_check CHECK (((length(name) >= 1) AND (length(name) <= 120)))
 constraint formula_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint formula_pkey PRIMARY KEY (studio_id, formula_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table formula_line
 studio_id uuid not null
 formula_id uuid not null
 version integer not null
 position integer not null
 ingredient text not null -- plain
 substance text -- plain
 item_id uuid
 quantity bigint not null
 unit text not null -- plain
 as_written text not null default ''::text -- plain
 note text not null default ''::text -- plain
 constraint formula_line_ingredient_check CHECK (((length(ingredient) >= 1) AND (length(ingredient) <= 120)))
 constraint formula_line_quantity_check CHECK ((quantity >= 0))
 constraint formula_line_unit_check CHECK ((unit = ANY (ARRAY['mg'::text, 'uL'::text, 'piece'::text])))
 constraint formula_line_studio_id_formula_id_version_fkey FOREIGN KEY (studio_id, formula_id, version) REFERENCES formula_version(studio_id, formula_id, version)
 constraint formula_line_studio_id_item_id_fkey FOREIGN KEY (studio_id, item_id) REFERENCES item(studio_id, item_id)
 constraint formula_line_pkey PRIMARY KEY (studio_id, formula_id, version, "position")
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select to plateday_app

table formula_version
 studio_id uuid not null
 formula_id uuid not null
 version integer not null
 created_at timestamp with time zone not null
 who text not null -- house
 batch_quantity bigint not null
 batch_as_written text not null default ''::text -- plain
 ripen_days integer not null
 life_days integer
 source text not null default ''::text -- plain
 method text not null default ''::text -- plain
 note text not null default ''::text -- plain
 constraint formula_version_batch_quantity_check CHECK ((batch_quantity > 0))
 constraint formula_version_life_days_check CHECK (((life_days >= 1) AND (life_days <= 36500)))
 constraint formula_version_ripen_days_check CHECK (((ripen_days >= 0) AND (ripen_days <= 730)))
 constraint formula_version_version_check CHECK ((version >= 1))
 constraint formula_version_studio_id_formula_id_fkey FOREIGN KEY (studio_id, formula_id) REFERENCES formula(studio_id, formula_id)
 constraint formula_version_pkey PRIMARY KEY (studio_id, formula_id, version)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select to plateday_app

table hand_over
 studio_id uuid not null
 hand_over_id uuid not null
 taken_by text not null -- house
 note text not null default ''::text -- words
 made_at timestamp with time zone not null
 given_on date
 noted_at timestamp with time zone
 constraint hand_over_given_is_noted CHECK (((given_on IS NULL) = (noted_at IS NULL)))
 constraint hand_over_note_check CHECK ((length(note) <= 1000))
 constraint hand_over_taken_by_check CHECK (((length(taken_by) >= 1) AND (length(taken_by) <= 200)))
 constraint hand_over_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint hand_over_pkey PRIMARY KEY (studio_id, hand_over_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table hand_over_plate
 studio_id uuid not null
 hand_over_id uuid not null
 made_id uuid not null
 what text not null -- plain
 constraint hand_over_plate_what_check CHECK ((what = ANY (ARRAY['plate'::text, 'scan'::text])))
 constraint hand_over_plate_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint hand_over_plate_studio_id_hand_over_id_fkey FOREIGN KEY (studio_id, hand_over_id) REFERENCES hand_over(studio_id, hand_over_id)
 constraint hand_over_plate_studio_id_made_id_fkey FOREIGN KEY (studio_id, made_id) REFERENCES plate_made(studio_id, made_id)
 constraint hand_over_plate_pkey PRIMARY KEY (studio_id, hand_over_id, made_id)
 CREATE INDEX hand_over_plate_by_plate ON public.hand_over_plate USING btree (studio_id, made_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table history
 studio_id uuid not null
 history_id bigint not null generated always as identity
 at timestamp with time zone not null
 who text not null -- house
 about_kind text not null -- plain
 about_id uuid not null
 event text not null -- plain
 note text not null default ''::text granted grant update to plateday_app -- personal: emptied
 constraint history_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint history_pkey PRIMARY KEY (studio_id, history_id)
 CREATE INDEX history_about ON public.history USING btree (studio_id, about_id, history_id)
 CREATE TRIGGER only_while_erasing BEFORE UPDATE ON public.history FOR EACH ROW EXECUTE FUNCTION plateday_only_while_erasing()
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select to plateday_app

table idempotency
 studio_id uuid not null
 key text not null -- secret
 act text not null -- plain
 fingerprint bytea not null -- secret
 answer jsonb not null -- secret
 created_at timestamp with time zone not null
 constraint idempotency_key_check CHECK (((length(key) >= 8) AND (length(key) <= 255)))
 constraint idempotency_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint idempotency_pkey PRIMARY KEY (studio_id, act, key)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table item
 studio_id uuid not null
 item_id uuid not null
 name text not null -- plain
 kind text not null -- plain
 unit text not null -- plain
 plate_size_id uuid
 lead_days integer
 ripen_days integer
 life_days integer
 surface text -- plain
 substance text -- plain
 opened_life_days integer
 formula_id uuid
 supplier_id uuid
 pack_quantity bigint
 least_packs integer not null default 1
 heel bigint not null default 0
 least_pour bigint not null default 0
 most_on_hand bigint
 no_post boolean not null default false
 h_codes text[] not null default '{}'::text[] -- plain
 hazard_note text not null default ''::text -- plain
 storage text not null default ''::text -- plain
 archived boolean not null default false
 usual boolean not null default false
 constraint item_check CHECK (((kind = 'glass'::text) = (plate_size_id IS NOT NULL)))
 constraint item_check1 CHECK (((kind = 'glass'::text) = (unit = 'sheet'::text)))
 constraint item_heel_check CHECK ((heel >= 0))
 constraint item_kind_check CHECK ((kind = ANY (ARRAY['glass'::text, 'collodion'::text, 'developer'::text, 'fixer'::text, 'varnish'::text, 'bath'::text, 'chemical'::text, 'supply'::text, 'gear'::text])))
 constraint item_lead_days_check CHECK (((lead_days >= 0) AND (lead_days <= 730)))
 constraint item_least_packs_check CHECK (((least_packs >= 1) AND (least_packs <= 10000)))
 constraint item_least_pour_check CHECK ((least_pour >= 0))
 constraint item_life_days_check CHECK (((life_days >= 1) AND (life_days <= 36500)))
 constraint item_most_on_hand_check CHECK ((most_on_hand >= 0))
 constraint item_name_check CHECK (((length(name) >= 1) AND (length(name) <= 120)))
 constraint item_opened_life_days_check CHECK (((opened_life_days >= 1) AND (opened_life_days <= 36500)))
 constraint item_pack_quantity_check CHECK ((pack_quantity > 0))
 constraint item_ripen_days_check CHECK (((ripen_days >= 0) AND (ripen_days <= 730)))
 constraint item_surface_check CHECK ((surface = ANY (ARRAY['clear glass'::text, 'black glass'::text, 'black-lacquered metal'::text])))
 constraint item_surface_of_glass CHECK (((kind = 'glass'::text) = (surface IS NOT NULL)))
 constraint item_unit_check CHECK ((unit = ANY (ARRAY['mg'::text, 'uL'::text, 'sheet'::text, 'piece'::text])))
 constraint item_usual_is_kept CHECK ((NOT (usual AND archived)))
 constraint item_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint item_studio_id_formula_id_fkey FOREIGN KEY (studio_id, formula_id) REFERENCES formula(studio_id, formula_id)
 constraint item_studio_id_plate_size_id_fkey FOREIGN KEY (studio_id, plate_size_id) REFERENCES plate_size(studio_id, plate_size_id)
 constraint item_studio_id_supplier_id_fkey FOREIGN KEY (studio_id, supplier_id) REFERENCES supplier(studio_id, supplier_id)
 constraint item_pkey PRIMARY KEY (studio_id, item_id)
 CREATE UNIQUE INDEX item_usual ON public.item USING btree (studio_id, kind, plate_size_id) NULLS NOT DISTINCT WHERE usual
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table keeping
 studio_id uuid not null
 unanswered_days integer
 refused_days integer
 made_months integer
 letters_days integer
 constraint keeping_letters_days_check CHECK (((letters_days >= 7) AND (letters_days <= 3650)))
 constraint keeping_made_months_check CHECK (((made_months >= 1) AND (made_months <= 1200)))
 constraint keeping_refused_days_check CHECK (((refused_days >= 7) AND (refused_days <= 3650)))
 constraint keeping_unanswered_days_check CHECK (((unanswered_days >= 7) AND (unanswered_days <= 3650)))
 constraint keeping_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint keeping_pkey PRIMARY KEY (studio_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table label_sheet
 studio_id uuid not null
 paper text not null -- plain
 width integer not null
 height integer not null
 across integer not null
 margin integer not null
 gap integer not null
 constraint label_sheet_across_check CHECK (((across >= 1) AND (across <= 10)))
 constraint label_sheet_gap_check CHECK (((gap >= 0) AND (gap <= 200)))
 constraint label_sheet_height_check CHECK (((height >= 100) AND (height <= 2900)))
 constraint label_sheet_margin_check CHECK (((margin >= 0) AND (margin <= 500)))
 constraint label_sheet_paper_check CHECK ((paper = ANY (ARRAY['A4'::text, 'Letter'::text])))
 constraint label_sheet_width_check CHECK (((width >= 200) AND (width <= 2100)))
 constraint label_sheet_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint label_sheet_pkey PRIMARY KEY (studio_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table letter_wording
 studio_id uuid not null
 kind text not null -- plain
 language text not null -- plain
 version integer not null
 subject text not null -- plain
 body text not null -- plain
 since timestamp with time zone not null
 who text not null -- house
 constraint letter_wording_body_check CHECK ((length(body) <= 6000))
 constraint letter_wording_kind_check CHECK ((length(kind) <= 40))
 constraint letter_wording_language_known CHECK ((language = ANY (ARRAY['en'::text, 'fr'::text])))
 constraint letter_wording_subject_check CHECK ((length(subject) <= 200))
 constraint letter_wording_version_check CHECK ((version >= 1))
 constraint letter_wording_whole CHECK (((subject = ''::text) = (body = ''::text)))
 constraint letter_wording_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint letter_wording_pkey PRIMARY KEY (studio_id, kind, language, version)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select to plateday_app

table link
 studio_id uuid not null
 link_id uuid not null
 purpose text not null -- plain
 subject_id uuid not null
 kind text not null default ''::text -- plain
 generation integer not null default 1
 token_hash bytea not null -- secret
 created_at timestamp with time zone not null
 expires_at timestamp with time zone
 used_at timestamp with time zone
 revoked_at timestamp with time zone
 fetched_at timestamp with time zone
 name text not null default ''::text -- house
 fetched_by text not null default ''::text -- house
 constraint link_fetched_by_check CHECK ((fetched_by = ANY (ARRAY[''::text, 'phone'::text, 'computer'::text, 'service'::text, 'browser'::text, 'other'::text])))
 constraint link_generation_check CHECK ((generation >= 1))
 constraint link_name_check CHECK ((length(name) <= 60))
 constraint link_purpose_check CHECK ((purpose = ANY (ARRAY['sign-in'::text, 'place'::text, 'feed'::text, 'invitation'::text, 'reminders'::text])))
 constraint link_token_hash_check CHECK ((length(token_hash) = 32))
 constraint link_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint link_pkey PRIMARY KEY (studio_id, link_id)
 constraint link_token UNIQUE (studio_id, token_hash)
 CREATE INDEX link_subject ON public.link USING btree (studio_id, subject_id, purpose)
 CREATE UNIQUE INDEX link_that_stays ON public.link USING btree (studio_id, purpose, subject_id, kind, name) WHERE ((revoked_at IS NULL) AND (expires_at IS NULL))
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table lot
 studio_id uuid not null
 lot_id uuid not null
 item_id uuid not null
 label text not null -- plain
 usable_from date not null
 usable_until date
 on_hand bigint not null default 0
 reserved bigint not null default 0
 class text not null default 'ordinary'::text -- plain
 speed_factor numeric(6,3)
 colour text not null default ''::text -- plain
 received_on date
 opened_on date
 state text not null default 'good'::text -- plain
 state_note text not null default ''::text -- words
 peroxide_checked_on date
 note text not null default ''::text -- words
 constraint lot_check CHECK (((usable_until IS NULL) OR (usable_until >= usable_from)))
 constraint lot_class_check CHECK ((class = ANY (ARRAY['fresh'::text, 'ordinary'::text, 'old'::text])))
 constraint lot_gone_is_empty CHECK (((state <> 'gone'::text) OR (on_hand = 0)))
 constraint lot_label_check CHECK (((length(label) >= 1) AND (length(label) <= 120)))
 constraint lot_never_negative CHECK ((on_hand >= 0))
 constraint lot_never_oversold CHECK (((reserved >= 0) AND (reserved <= on_hand)))
 constraint lot_speed_factor_check CHECK ((speed_factor > (0)::numeric))
 constraint lot_state_check CHECK ((state = ANY (ARRAY['good'::text, 'suspect'::text, 'gone'::text])))
 constraint lot_studio_id_item_id_fkey FOREIGN KEY (studio_id, item_id) REFERENCES item(studio_id, item_id)
 constraint lot_pkey PRIMARY KEY (studio_id, lot_id)
 CREATE INDEX lot_item ON public.lot USING btree (studio_id, item_id)
 CREATE INDEX lot_live ON public.lot USING btree (studio_id, item_id) WHERE (state <> 'gone'::text)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table lot_parent
 studio_id uuid not null
 lot_id uuid not null
 parent_lot_id uuid not null
 quantity bigint not null
 constraint lot_parent_check CHECK ((lot_id <> parent_lot_id))
 constraint lot_parent_quantity_check CHECK ((quantity > 0))
 constraint lot_parent_studio_id_lot_id_fkey FOREIGN KEY (studio_id, lot_id) REFERENCES lot(studio_id, lot_id)
 constraint lot_parent_studio_id_parent_lot_id_fkey FOREIGN KEY (studio_id, parent_lot_id) REFERENCES lot(studio_id, lot_id)
 constraint lot_parent_pkey PRIMARY KEY (studio_id, lot_id, parent_lot_id)
 CREATE INDEX lot_parent_of ON public.lot_parent USING btree (studio_id, parent_lot_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table mail
 studio_id uuid not null
 mail_id uuid not null
 about_id uuid not null
 sequence integer not null
 kind text not null -- plain
 recipient text not null -- personal: numbered
 recipient_name text not null default ''::text -- personal: emptied
 snapshot jsonb not null -- personal: emptied
 state text not null -- plain
 message_id text not null -- plain
 attempts integer not null default 0
 lease_until timestamp with time zone
 last_error text not null default ''::text -- personal: emptied
 created_at timestamp with time zone not null
 sent_at timestamp with time zone
 by_hand text not null default ''::text -- plain
 telephone_now boolean not null default false
 told_at timestamp with time zone
 told_by text not null default ''::text -- house
 constraint mail_by_hand_check CHECK ((by_hand = ANY (ARRAY[''::text, 'telephone'::text, 'letter'::text])))
 constraint mail_state_check CHECK ((state = ANY (ARRAY['waiting'::text, 'sending'::text, 'sent'::text, 'parked'::text, 'dropped'::text, 'held'::text])))
 constraint mail_told_by_somebody CHECK (((told_at IS NULL) = (told_by = ''::text)))
 constraint mail_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint mail_pkey PRIMARY KEY (studio_id, mail_id)
 constraint mail_once UNIQUE (studio_id, about_id, sequence, kind, recipient)
 CREATE INDEX mail_by_hand ON public.mail USING btree (studio_id, created_at) WHERE ((by_hand <> ''::text) OR telephone_now OR (state = 'parked'::text) OR (told_at IS NOT NULL))
 CREATE INDEX mail_by_time ON public.mail USING btree (studio_id, created_at)
 CREATE INDEX mail_untold ON public.mail USING btree (studio_id, created_at) WHERE ((told_at IS NULL) AND (state <> 'dropped'::text) AND ((by_hand <> ''::text) OR telephone_now OR (state = 'parked'::text)))
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table migration
 name text not null
 checksum text not null
 applied_at timestamp with time zone not null default transaction_timestamp()
 constraint migration_pkey PRIMARY KEY (name)
 grant select to plateday_app

table movement
 studio_id uuid not null
 movement_id uuid not null
 lot_id uuid not null
 kind text not null -- plain
 quantity bigint not null
 held_for uuid
 reason text not null default ''::text granted grant update to plateday_app -- words
 at timestamp with time zone not null
 batch_id uuid
 who text not null default ''::text -- house
 seq bigint not null generated always as identity
 constraint movement_kind_check CHECK ((kind = ANY (ARRAY['received'::text, 'mixed'::text, 'used'::text, 'taken'::text, 'discarded'::text, 'counted'::text, 'reserved'::text, 'released'::text])))
 constraint movement_sign CHECK (
CASE
    WHEN (kind = ANY (ARRAY['received'::text, 'mixed'::text, 'reserved'::text, 'released'::text])) THEN (quantity >= 0)
    WHEN (kind = ANY (ARRAY['used'::text, 'taken'::text, 'discarded'::text])) THEN (quantity < 0)
    ELSE true
END)
 constraint movement_studio_id_lot_id_fkey FOREIGN KEY (studio_id, lot_id) REFERENCES lot(studio_id, lot_id)
 constraint movement_pkey PRIMARY KEY (studio_id, movement_id)
 CREATE INDEX movement_lot ON public.movement USING btree (studio_id, lot_id, seq)
 CREATE TRIGGER only_while_erasing BEFORE UPDATE ON public.movement FOR EACH ROW EXECUTE FUNCTION plateday_only_while_erasing()
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select to plateday_app

table occupancy
 studio_id uuid not null
 occupancy_id uuid not null
 resource text not null -- plain
 kind text not null -- plain
 held_for uuid not null
 holds boolean not null
 zone text not null -- plain
 wall_start timestamp without time zone not null
 wall_end timestamp without time zone not null
 starts_at timestamp with time zone not null
 ends_at timestamp with time zone not null
 during tstzrange not null
 title text not null default ''::text -- words
 uid uuid not null
 sequence integer not null default 0
 revised_at timestamp with time zone not null
 created_at timestamp with time zone not null
 plates integer not null default 0
 kind_id uuid
 tentative boolean not null default false
 given_back boolean not null default false
 constraint occupancy_given_back_has_no_room CHECK ((NOT (given_back AND holds)))
 constraint occupancy_kind_check CHECK ((kind = ANY (ARRAY['sitting'::text, 'teaching'::text, 'closure'::text])))
 constraint occupancy_plates_check CHECK ((plates >= 0))
 constraint occupancy_proper CHECK (((starts_at < ends_at) AND (NOT isempty(during)) AND (lower(during) IS NOT NULL) AND (upper(during) IS NOT NULL)))
 constraint occupancy_resource_check CHECK ((resource = ANY (ARRAY['room'::text, 'darkroom'::text, 'owner'::text, 'helper'::text])))
 constraint occupancy_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint occupancy_pkey PRIMARY KEY (studio_id, occupancy_id)
 constraint occupancy_no_overlap EXCLUDE USING gist (studio_id WITH =, resource WITH =, during WITH &&) WHERE (holds)
 CREATE INDEX occupancy_by_end ON public.occupancy USING btree (studio_id, ends_at)
 CREATE INDEX occupancy_by_time ON public.occupancy USING btree (studio_id, starts_at)
 CREATE INDEX occupancy_held_for ON public.occupancy USING btree (studio_id, held_for)
 CREATE INDEX occupancy_kind ON public.occupancy USING btree (studio_id, kind_id, wall_start) WHERE (holds AND (kind_id IS NOT NULL))
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table offer
 studio_id uuid not null
 offer_id uuid not null
 for_id uuid not null
 occupancy_id uuid
 made_at timestamp with time zone not null
 expires_at timestamp with time zone not null
 by_telephone boolean not null default false
 who text not null -- house
 answer text -- plain
 answered_at timestamp with time zone
 answered_by text not null default ''::text -- house
 constraint offer_accepted_in_time CHECK (((answer <> 'accepted'::text) OR (answered_at < expires_at)))
 constraint offer_answer_check CHECK ((answer = ANY (ARRAY['accepted'::text, 'refused'::text, 'lapsed'::text, 'another day'::text, 'withdrawn'::text, 'called off'::text])))
 constraint offer_check CHECK ((expires_at > made_at))
 constraint offer_check1 CHECK (((answer IS NULL) = (answered_at IS NULL)))
 constraint offer_lapsed_in_time CHECK (((answer <> 'lapsed'::text) OR (answered_at >= expires_at)))
 constraint offer_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint offer_studio_id_occupancy_id_fkey FOREIGN KEY (studio_id, occupancy_id) REFERENCES occupancy(studio_id, occupancy_id)
 constraint offer_pkey PRIMARY KEY (studio_id, offer_id)
 CREATE INDEX offer_for ON public.offer USING btree (studio_id, for_id, made_at)
 CREATE INDEX offer_live ON public.offer USING btree (studio_id, expires_at) WHERE (answer IS NULL)
 CREATE INDEX offer_place ON public.offer USING btree (studio_id, occupancy_id)
 CREATE UNIQUE INDEX offer_one_live ON public.offer USING btree (studio_id, for_id) WHERE (answer IS NULL)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select, update to plateday_app

table outside_calendar
 studio_id uuid not null
 calendar_id uuid not null
 name text not null -- house
 sealed_address bytea -- secret
 host text not null -- house
 state text not null -- plain
 blocks text not null -- plain
 margin_minutes integer not null
 etag text not null -- plain
 last_modified text not null -- plain
 copy text not null -- house
 entries integer not null
 free integer not null
 busy jsonb not null -- house
 blocking bigint[] not null
 created_at timestamp with time zone not null
 read_at timestamp with time zone not null
 next_at timestamp with time zone not null
 failures integer not null
 failure text not null -- plain
 constraint outside_calendar_blocking_check CHECK (((array_length(blocking, 1) IS NULL) OR ((array_length(blocking, 1) % 2) = 0)))
 constraint outside_calendar_blocks_check CHECK ((blocks = ANY (ARRAY['hours'::text, 'days'::text, 'nothing'::text])))
 constraint outside_calendar_check CHECK (((free >= 0) AND (free <= entries)))
 constraint outside_calendar_check1 CHECK (((failures = 0) = (failure = ''::text)))
 constraint outside_calendar_check2 CHECK (((state = 'on'::text) OR (blocking = '{}'::bigint[])))
 constraint outside_calendar_entries_check CHECK ((entries >= 0))
 constraint outside_calendar_failures_check CHECK ((failures >= 0))
 constraint outside_calendar_margin_minutes_check CHECK (((margin_minutes >= 0) AND (margin_minutes <= 240)))
 constraint outside_calendar_name_check CHECK ((name <> ''::text))
 constraint outside_calendar_state_check CHECK ((state = ANY (ARRAY['new'::text, 'on'::text, 'paused'::text])))
 constraint outside_calendar_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint outside_calendar_pkey PRIMARY KEY (studio_id, calendar_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table owed_done
 studio_id uuid not null
 sitting_id uuid not null
 step_id uuid not null
 at timestamp with time zone not null
 who text not null -- house
 constraint owed_done_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint owed_done_studio_id_sitting_id_fkey FOREIGN KEY (studio_id, sitting_id) REFERENCES sitting(studio_id, sitting_id)
 constraint owed_done_studio_id_step_id_fkey FOREIGN KEY (studio_id, step_id) REFERENCES owed_step(studio_id, step_id)
 constraint owed_done_pkey PRIMARY KEY (studio_id, sitting_id, step_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table owed_step
 studio_id uuid not null
 step_id uuid not null
 position integer not null
 what text not null -- plain
 days integer not null
 leaves boolean not null
 archived boolean not null default false
 constraint owed_step_days_check CHECK (((days >= 0) AND (days <= 730)))
 constraint owed_step_what_check CHECK (((length(what) >= 1) AND (length(what) <= 120)))
 constraint owed_step_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint owed_step_pkey PRIMARY KEY (studio_id, step_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table owed_step_kind
 studio_id uuid not null
 step_id uuid not null
 kind_id uuid not null
 days integer
 constraint owed_step_kind_days_check CHECK (((days >= 0) AND (days <= 730)))
 constraint owed_step_kind_studio_id_kind_id_fkey FOREIGN KEY (studio_id, kind_id) REFERENCES sitting_kind(studio_id, kind_id)
 constraint owed_step_kind_studio_id_step_id_fkey FOREIGN KEY (studio_id, step_id) REFERENCES owed_step(studio_id, step_id)
 constraint owed_step_kind_pkey PRIMARY KEY (studio_id, step_id, kind_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table plan
 studio_id uuid not null
 plan_id uuid not null
 made_at timestamp with time zone not null
 who text not null -- house
 weights jsonb not null -- plain
 state text not null -- plain
 gives text -- plain
 settled_at timestamp with time zone
 points integer not null
 bound integer not null
 constraint plan_check CHECK ((bound >= points))
 constraint plan_check1 CHECK (((state = 'confirmed'::text) = (gives IS NOT NULL)))
 constraint plan_check2 CHECK (((state = 'proposed'::text) = (settled_at IS NULL)))
 constraint plan_gives_check CHECK ((gives = ANY (ARRAY['offer'::text, 'place'::text])))
 constraint plan_points_check CHECK ((points >= 0))
 constraint plan_state_check CHECK ((state = ANY (ARRAY['proposed'::text, 'confirmed'::text, 'dropped'::text])))
 constraint plan_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint plan_pkey PRIMARY KEY (studio_id, plan_id)
 CREATE INDEX plan_latest ON public.plan USING btree (studio_id, made_at)
 CREATE UNIQUE INDEX plan_one_proposed ON public.plan USING btree (studio_id) WHERE (state = 'proposed'::text)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select, update to plateday_app

table plan_entry
 studio_id uuid not null
 plan_id uuid not null
 sitting_id uuid not null
 position integer not null
 wall_start timestamp without time zone
 place jsonb -- plain
 left_out jsonb -- plain
 ticked boolean not null default true
 outcome text not null default ''::text -- words
 constraint plan_entry_check CHECK (((wall_start IS NULL) = (place IS NULL)))
 constraint plan_entry_check1 CHECK (((wall_start IS NULL) = (left_out IS NOT NULL)))
 constraint plan_entry_outcome_check CHECK ((length(outcome) <= 300))
 constraint plan_entry_position_check CHECK (("position" > 0))
 constraint plan_entry_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint plan_entry_studio_id_plan_id_fkey FOREIGN KEY (studio_id, plan_id) REFERENCES plan(studio_id, plan_id)
 constraint plan_entry_studio_id_sitting_id_fkey FOREIGN KEY (studio_id, sitting_id) REFERENCES sitting(studio_id, sitting_id)
 constraint plan_entry_pkey PRIMARY KEY (studio_id, plan_id, sitting_id)
 CREATE INDEX plan_entry_sitting ON public.plan_entry USING btree (studio_id, sitting_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select, update to plateday_app

table plan_wish
 studio_id uuid not null
 sitting_id uuid not null
 words text not null -- personal: row
 asked_at timestamp with time zone not null
 constraint plan_wish_words_check CHECK (((length(words) >= 1) AND (length(words) <= 2000)))
 constraint plan_wish_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint plan_wish_studio_id_sitting_id_fkey FOREIGN KEY (studio_id, sitting_id) REFERENCES sitting(studio_id, sitting_id)
 constraint plan_wish_pkey PRIMARY KEY (studio_id, sitting_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table plate
 studio_id uuid not null
 plate_id uuid not null
 sitting_id uuid not null
 position integer not null
 plate_size_id uuid not null
 constraint plate_studio_id_plate_size_id_fkey FOREIGN KEY (studio_id, plate_size_id) REFERENCES plate_size(studio_id, plate_size_id)
 constraint plate_studio_id_sitting_id_fkey FOREIGN KEY (studio_id, sitting_id) REFERENCES sitting(studio_id, sitting_id) ON DELETE CASCADE
 constraint plate_pkey PRIMARY KEY (studio_id, plate_id)
 CREATE INDEX plate_sitting ON public.plate USING btree (studio_id, sitting_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table plate_made
 studio_id uuid not null
 made_id uuid not null
 number integer not null
 day date not null
 sitting_id uuid
 plate_id uuid
 plate_size_id uuid not null
 keeper boolean not null
 seconds double precision
 sky text -- plain
 lot_id uuid
 bath_id uuid
 result text not null default ''::text -- personal: emptied
 note text not null default ''::text -- personal: emptied
 names text not null default ''::text -- personal: emptied
 series_id uuid
 series_number integer
 typed_at timestamp with time zone not null
 who text not null -- house
 struck_at timestamp with time zone
 constraint plate_made_check CHECK (((series_id IS NULL) = (series_number IS NULL)))
 constraint plate_made_check1 CHECK (((plate_id IS NULL) OR (sitting_id IS NOT NULL)))
 constraint plate_made_names_check CHECK ((length(names) <= 300))
 constraint plate_made_note_check CHECK ((length(note) <= 1000))
 constraint plate_made_number_check CHECK ((number >= 1))
 constraint plate_made_result_check CHECK ((length(result) <= 200))
 constraint plate_made_seconds_check CHECK (((seconds > (0)::double precision) AND (seconds <= (3600)::double precision)))
 constraint plate_made_series_number_check CHECK ((series_number >= 1))
 constraint plate_made_sky_check CHECK ((sky = ANY (ARRAY['clear'::text, 'broken'::text, 'bright overcast'::text, 'dull'::text, 'heavy'::text])))
 constraint plate_made_studio_id_bath_id_fkey FOREIGN KEY (studio_id, bath_id) REFERENCES bath(studio_id, bath_id)
 constraint plate_made_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint plate_made_studio_id_lot_id_fkey FOREIGN KEY (studio_id, lot_id) REFERENCES lot(studio_id, lot_id)
 constraint plate_made_studio_id_plate_id_fkey FOREIGN KEY (studio_id, plate_id) REFERENCES plate(studio_id, plate_id) ON DELETE SET NULL (plate_id)
 constraint plate_made_studio_id_plate_size_id_fkey FOREIGN KEY (studio_id, plate_size_id) REFERENCES plate_size(studio_id, plate_size_id)
 constraint plate_made_studio_id_series_id_fkey FOREIGN KEY (studio_id, series_id) REFERENCES series(studio_id, series_id)
 constraint plate_made_studio_id_sitting_id_fkey FOREIGN KEY (studio_id, sitting_id) REFERENCES sitting(studio_id, sitting_id)
 constraint plate_made_pkey PRIMARY KEY (studio_id, made_id)
 constraint plate_made_number UNIQUE (studio_id, number)
 constraint plate_made_series_number UNIQUE (studio_id, series_id, series_number)
 CREATE INDEX plate_made_by_day ON public.plate_made USING btree (studio_id, day, number)
 CREATE INDEX plate_made_sitting ON public.plate_made USING btree (studio_id, sitting_id) WHERE (sitting_id IS NOT NULL)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table plate_numbers
 studio_id uuid not null
 next integer not null
 constraint plate_numbers_next_check CHECK (((next >= 1) AND (next <= 100000000)))
 constraint plate_numbers_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint plate_numbers_pkey PRIMARY KEY (studio_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table plate_sitter
 studio_id uuid not null
 plate_id uuid not null
 sitter_id uuid not null
 constraint plate_sitter_studio_id_plate_id_fkey FOREIGN KEY (studio_id, plate_id) REFERENCES plate(studio_id, plate_id) ON DELETE CASCADE
 constraint plate_sitter_studio_id_sitter_id_fkey FOREIGN KEY (studio_id, sitter_id) REFERENCES sitter(studio_id, sitter_id) ON DELETE CASCADE
 constraint plate_sitter_pkey PRIMARY KEY (studio_id, plate_id, sitter_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table plate_size
 studio_id uuid not null
 plate_size_id uuid not null
 name text not null -- plain
 width_mm numeric(7,3) not null
 height_mm numeric(7,3) not null
 offered boolean not null default true
 position integer not null
 constraint plate_size_height_mm_check CHECK ((height_mm > (0)::numeric))
 constraint plate_size_name_check CHECK (((length(name) >= 1) AND (length(name) <= 80)))
 constraint plate_size_width_mm_check CHECK ((width_mm > (0)::numeric))
 constraint plate_size_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint plate_size_pkey PRIMARY KEY (studio_id, plate_size_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table plate_took
 studio_id uuid not null
 made_id uuid not null
 lot_id uuid not null
 quantity bigint not null
 constraint plate_took_quantity_check CHECK ((quantity > 0))
 constraint plate_took_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint plate_took_studio_id_lot_id_fkey FOREIGN KEY (studio_id, lot_id) REFERENCES lot(studio_id, lot_id)
 constraint plate_took_studio_id_made_id_fkey FOREIGN KEY (studio_id, made_id) REFERENCES plate_made(studio_id, made_id)
 constraint plate_took_pkey PRIMARY KEY (studio_id, made_id, lot_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table pose_limits
 studio_id uuid not null
 under_8 double precision not null
 from_8_to_14 double precision not null
 adult double precision not null
 head_rest double precision not null
 group_of_3 double precision not null
 constraint pose_limits_adult_check CHECK ((adult > (0)::double precision))
 constraint pose_limits_from_8_to_14_check CHECK ((from_8_to_14 > (0)::double precision))
 constraint pose_limits_group_of_3_check CHECK ((group_of_3 > (0)::double precision))
 constraint pose_limits_head_rest_check CHECK ((head_rest > (0)::double precision))
 constraint pose_limits_under_8_check CHECK ((under_8 > (0)::double precision))
 constraint pose_limits_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint pose_limits_pkey PRIMARY KEY (studio_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table preparation_move
 studio_id uuid not null
 day date not null
 rule_id uuid not null
 to_day date not null
 who text not null -- house
 at timestamp with time zone not null
 constraint preparation_move_studio_id_rule_id_fkey FOREIGN KEY (studio_id, rule_id) REFERENCES preparation_rule(studio_id, rule_id)
 constraint preparation_move_pkey PRIMARY KEY (studio_id, day, rule_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table preparation_rule
 studio_id uuid not null
 rule_id uuid not null
 position integer not null
 what text not null -- plain
 for_day text not null -- plain
 days_before integer not null
 minutes integer not null
 minutes_each integer not null default 0
 darkroom boolean not null
 not_with uuid
 condition text not null -- plain
 amount text not null -- plain
 note text not null default ''::text -- plain
 archived boolean not null default false
 constraint preparation_rule_amount_check CHECK ((amount = ANY (ARRAY['none'::text, 'sheets'::text])))
 constraint preparation_rule_check CHECK ((not_with <> rule_id))
 constraint preparation_rule_condition_check CHECK ((condition = ANY (ARRAY['always'::text, 'hot'::text, 'cold'::text])))
 constraint preparation_rule_days_before_check CHECK (((days_before >= 0) AND (days_before <= 30)))
 constraint preparation_rule_for_day_check CHECK ((for_day = ANY (ARRAY['studio'::text, 'teaching'::text, 'both'::text])))
 constraint preparation_rule_minutes_check CHECK (((minutes >= 1) AND (minutes <= 600)))
 constraint preparation_rule_minutes_each_check CHECK (((minutes_each >= 0) AND (minutes_each <= 60)))
 constraint preparation_rule_note_check CHECK ((length(note) <= 500))
 constraint preparation_rule_what_check CHECK (((length(what) >= 1) AND (length(what) <= 120)))
 constraint preparation_rule_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint preparation_rule_studio_id_not_with_fkey FOREIGN KEY (studio_id, not_with) REFERENCES preparation_rule(studio_id, rule_id) DEFERRABLE INITIALLY DEFERRED
 constraint preparation_rule_pkey PRIMARY KEY (studio_id, rule_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table preparation_tick
 studio_id uuid not null
 tick_id uuid not null
 seq bigint not null generated always as identity
 day date not null
 rule_id uuid not null
 done boolean not null
 who text not null -- house
 at timestamp with time zone not null
 constraint preparation_tick_studio_id_rule_id_fkey FOREIGN KEY (studio_id, rule_id) REFERENCES preparation_rule(studio_id, rule_id)
 constraint preparation_tick_pkey PRIMARY KEY (studio_id, tick_id)
 CREATE INDEX preparation_tick_day ON public.preparation_tick USING btree (studio_id, day, rule_id, seq)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select to plateday_app

table receipt
 studio_id uuid not null
 receipt_id uuid not null
 item_id uuid not null
 supplier_id uuid
 quantity bigint not null
 ordered_on date not null
 expected_on date not null
 lot_id uuid
 cancelled boolean not null default false
 constraint receipt_check CHECK ((expected_on >= ordered_on))
 constraint receipt_check1 CHECK (((lot_id IS NULL) OR (NOT cancelled)))
 constraint receipt_quantity_check CHECK ((quantity > 0))
 constraint receipt_studio_id_item_id_fkey FOREIGN KEY (studio_id, item_id) REFERENCES item(studio_id, item_id)
 constraint receipt_studio_id_lot_id_fkey FOREIGN KEY (studio_id, lot_id) REFERENCES lot(studio_id, lot_id)
 constraint receipt_studio_id_supplier_id_fkey FOREIGN KEY (studio_id, supplier_id) REFERENCES supplier(studio_id, supplier_id)
 constraint receipt_pkey PRIMARY KEY (studio_id, receipt_id)
 CREATE INDEX receipt_open ON public.receipt USING btree (studio_id, item_id) WHERE ((lot_id IS NULL) AND (NOT cancelled))
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table record_entry
 studio_id uuid not null
 made_id uuid not null
 field_id uuid not null
 value text not null -- personal: row
 constraint record_entry_value_check CHECK (((length(value) >= 1) AND (length(value) <= 300)))
 constraint record_entry_studio_id_field_id_fkey FOREIGN KEY (studio_id, field_id) REFERENCES record_field(studio_id, field_id)
 constraint record_entry_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint record_entry_studio_id_made_id_fkey FOREIGN KEY (studio_id, made_id) REFERENCES plate_made(studio_id, made_id)
 constraint record_entry_pkey PRIMARY KEY (studio_id, made_id, field_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table record_field
 studio_id uuid not null
 field_id uuid not null
 position integer not null
 label text not null -- plain
 what text not null -- plain
 archived boolean not null default false
 constraint record_field_label_check CHECK (((length(label) >= 1) AND (length(label) <= 60)))
 constraint record_field_what_check CHECK ((what = ANY (ARRAY['names'::text, 'day'::text, 'number'::text, 'series'::text, 'place'::text, 'size'::text, 'studio'::text, 'exposure'::text, 'typed'::text])))
 constraint record_field_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint record_field_pkey PRIMARY KEY (studio_id, field_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table recovery_code
 studio_id uuid not null
 code_hash bytea not null -- secret
 account_id uuid not null
 used_at timestamp with time zone
 constraint recovery_code_code_hash_check CHECK ((length(code_hash) = 32))
 constraint recovery_code_studio_id_account_id_fkey FOREIGN KEY (studio_id, account_id) REFERENCES account(studio_id, account_id) ON DELETE CASCADE
 constraint recovery_code_pkey PRIMARY KEY (studio_id, code_hash)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table reminder
 studio_id uuid not null
 reminder_id uuid not null
 sitting_id uuid
 turn integer not null
 kind text not null -- plain
 due_at timestamp with time zone not null
 state text not null -- plain
 reason text not null default ''::text -- plain
 mail_id uuid
 ended_at timestamp with time zone
 sign_up_id uuid
 constraint reminder_check CHECK (((state = 'written'::text) = (mail_id IS NOT NULL)))
 constraint reminder_check1 CHECK (((state = 'planned'::text) = (ended_at IS NULL)))
 constraint reminder_check2 CHECK (((state <> 'dropped'::text) OR (reason <> ''::text)))
 constraint reminder_check3 CHECK ((num_nonnulls(sitting_id, sign_up_id) = 1))
 constraint reminder_kind_check CHECK ((kind = ANY (ARRAY['travel'::text, 'week'::text, 'near'::text, 'eve'::text, 'day'::text])))
 constraint reminder_state_check CHECK ((state = ANY (ARRAY['planned'::text, 'written'::text, 'dropped'::text])))
 constraint reminder_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint reminder_studio_id_sign_up_id_fkey FOREIGN KEY (studio_id, sign_up_id) REFERENCES sign_up(studio_id, sign_up_id)
 constraint reminder_studio_id_sitting_id_fkey FOREIGN KEY (studio_id, sitting_id) REFERENCES sitting(studio_id, sitting_id)
 constraint reminder_pkey PRIMARY KEY (studio_id, reminder_id)
 constraint reminder_once UNIQUE NULLS NOT DISTINCT (studio_id, sitting_id, sign_up_id, turn, kind)
 CREATE INDEX reminder_of_sign_up ON public.reminder USING btree (studio_id, sign_up_id) WHERE (sign_up_id IS NOT NULL)
 CREATE INDEX reminder_planned ON public.reminder USING btree (studio_id, due_at) WHERE (state = 'planned'::text)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table reminder_rule
 studio_id uuid not null
 rule_id uuid not null
 kind text not null -- plain
 days integer not null
 hour integer not null
 for_whom text not null -- plain
 least_km integer not null
 least_lead_days integer not null
 is_on boolean not null
 for_day text not null -- plain
 tells text[] not null -- plain
 constraint reminder_rule_check CHECK (((for_day = 'teaching'::text) OR (tells = '{}'::text[])))
 constraint reminder_rule_days_check CHECK (((days >= 0) AND (days <= 365)))
 constraint reminder_rule_for_day_check CHECK ((for_day = ANY (ARRAY['sitting'::text, 'teaching'::text])))
 constraint reminder_rule_for_whom_check CHECK ((for_whom = ANY (ARRAY['everyone'::text, 'stays a night'::text, 'flies'::text, 'flies from abroad'::text])))
 constraint reminder_rule_hour_check CHECK (((hour >= 8) AND (hour <= 20)))
 constraint reminder_rule_kind_check CHECK ((kind = ANY (ARRAY['travel'::text, 'week'::text, 'near'::text, 'eve'::text, 'day'::text])))
 constraint reminder_rule_least_km_check CHECK (((least_km >= 0) AND (least_km <= 20000)))
 constraint reminder_rule_least_lead_days_check CHECK (((least_lead_days >= 0) AND (least_lead_days <= 730)))
 constraint reminder_rule_tells_check CHECK ((tells <@ ARRAY['reading'::text, 'safety'::text, 'emergency'::text, 'gear'::text, 'deposit'::text]))
 constraint reminder_rule_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint reminder_rule_pkey PRIMARY KEY (studio_id, rule_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table request_draft
 studio_id uuid not null
 draft_id uuid not null
 token_hash bytea not null -- secret
 answers jsonb not null -- personal: row
 saved_at timestamp with time zone not null
 sitting_id uuid
 constraint request_draft_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint request_draft_studio_id_sitting_id_fkey FOREIGN KEY (studio_id, sitting_id) REFERENCES sitting(studio_id, sitting_id)
 constraint request_draft_pkey PRIMARY KEY (studio_id, draft_id)
 constraint request_draft_studio_id_token_hash_key UNIQUE (studio_id, token_hash)
 CREATE INDEX request_draft_saved ON public.request_draft USING btree (studio_id, saved_at)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table reservation
 studio_id uuid not null
 reservation_id uuid not null
 held_for uuid not null
 item_id uuid not null
 lot_id uuid
 quantity bigint not null
 needed_on date not null
 class text not null default 'any'::text -- plain
 chosen_lot_id uuid
 constraint reservation_class_check CHECK ((class = ANY (ARRAY['fresh'::text, 'any'::text, 'old'::text])))
 constraint reservation_quantity_check CHECK ((quantity > 0))
 constraint reservation_studio_id_chosen_lot_id_fkey FOREIGN KEY (studio_id, chosen_lot_id) REFERENCES lot(studio_id, lot_id)
 constraint reservation_studio_id_item_id_fkey FOREIGN KEY (studio_id, item_id) REFERENCES item(studio_id, item_id)
 constraint reservation_studio_id_lot_id_fkey FOREIGN KEY (studio_id, lot_id) REFERENCES lot(studio_id, lot_id)
 constraint reservation_pkey PRIMARY KEY (studio_id, reservation_id)
 constraint reservation_once UNIQUE NULLS NOT DISTINCT (studio_id, held_for, item_id, needed_on, class, lot_id)
 CREATE INDEX reservation_held_for ON public.reservation USING btree (studio_id, held_for)
 CREATE INDEX reservation_item_day ON public.reservation USING btree (studio_id, item_id, needed_on)
 CREATE INDEX reservation_lot ON public.reservation USING btree (studio_id, lot_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table rhythm
 studio_id uuid not null
 rhythm_id uuid not null
 weekday integer not null
 starts integer[] not null
 first_plate_minutes integer not null
 further_plate_minutes integer not null
 changeover_minutes integer not null
 most_sittings integer not null
 effective_from date not null
 effective_until date
 further_sitter_minutes integer not null default 0
 breaks integer[] not null default '{}'::integer[]
 most_sittings_with_helper integer
 most_plates integer not null default 10
 held_back integer not null default 0
 held_back_days integer not null default 14
 constraint rhythm_breaks_check CHECK ((((cardinality(breaks) % 2) = 0) AND (cardinality(breaks) <= 24)))
 constraint rhythm_changeover_minutes_check CHECK (((changeover_minutes >= 0) AND (changeover_minutes <= 240)))
 constraint rhythm_check CHECK (((effective_until IS NULL) OR (effective_until >= effective_from)))
 constraint rhythm_first_plate_minutes_check CHECK (((first_plate_minutes >= 5) AND (first_plate_minutes <= 720)))
 constraint rhythm_further_plate_minutes_check CHECK (((further_plate_minutes >= 0) AND (further_plate_minutes <= 720)))
 constraint rhythm_further_sitter_minutes_check CHECK (((further_sitter_minutes >= 0) AND (further_sitter_minutes <= 720)))
 constraint rhythm_has_starts CHECK (((cardinality(starts) >= 1) AND (cardinality(starts) <= 48)))
 constraint rhythm_held_back_check CHECK (((held_back >= 0) AND (held_back <= 48)))
 constraint rhythm_held_back_days_check CHECK (((held_back_days >= 0) AND (held_back_days <= 365)))
 constraint rhythm_most_plates_check CHECK (((most_plates >= 1) AND (most_plates <= 200)))
 constraint rhythm_most_sittings_check CHECK (((most_sittings >= 1) AND (most_sittings <= 48)))
 constraint rhythm_most_sittings_with_helper_check CHECK (((most_sittings_with_helper >= 1) AND (most_sittings_with_helper <= 48)))
 constraint rhythm_weekday_check CHECK (((weekday >= 1) AND (weekday <= 7)))
 constraint rhythm_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint rhythm_pkey PRIMARY KEY (studio_id, rhythm_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table safety_wording
 studio_id uuid not null
 version integer not null
 wording text not null -- plain
 made_at timestamp with time zone not null
 who text not null -- house
 constraint safety_wording_version_check CHECK ((version > 1))
 constraint safety_wording_wording_check CHECK (((length(wording) >= 1) AND (length(wording) <= 6000)))
 constraint safety_wording_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint safety_wording_pkey PRIMARY KEY (studio_id, version)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select to plateday_app

table second_factor
 studio_id uuid not null
 account_id uuid not null
 generation integer not null
 confirmed_at timestamp with time zone
 last_step bigint not null default 0
 constraint second_factor_generation_check CHECK ((generation >= 1))
 constraint second_factor_studio_id_account_id_fkey FOREIGN KEY (studio_id, account_id) REFERENCES account(studio_id, account_id) ON DELETE CASCADE
 constraint second_factor_pkey PRIMARY KEY (studio_id, account_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table series
 studio_id uuid not null
 series_id uuid not null
 name text not null -- plain
 about text not null default ''::text -- plain
 target integer
 archived boolean not null default false
 constraint series_about_check CHECK ((length(about) <= 1000))
 constraint series_name_check CHECK (((length(name) >= 1) AND (length(name) <= 120)))
 constraint series_target_check CHECK (((target >= 1) AND (target <= 100000)))
 constraint series_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint series_pkey PRIMARY KEY (studio_id, series_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table session
 studio_id uuid not null
 token_hash bytea not null -- secret
 account_id uuid not null
 created_at timestamp with time zone not null
 seen_at timestamp with time zone not null
 session_id uuid not null
 agent text not null default ''::text -- house
 awaits_code boolean not null default false
 constraint session_agent_check CHECK ((length(agent) <= 300))
 constraint session_token_hash_check CHECK ((length(token_hash) = 32))
 constraint session_studio_id_account_id_fkey FOREIGN KEY (studio_id, account_id) REFERENCES account(studio_id, account_id) ON DELETE CASCADE
 constraint session_pkey PRIMARY KEY (studio_id, token_hash)
 constraint session_once UNIQUE (studio_id, session_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table sign_up
 studio_id uuid not null
 sign_up_id uuid not null
 template_id uuid not null
 session_id uuid
 contact_id uuid not null
 state text not null -- personal: kept
 asked_at timestamp with time zone not null
 decided_at timestamp with time zone
 wanted_on date
 follows uuid
 anything text not null default ''::text -- personal: emptied
 message text not null default ''::text -- personal: emptied
 deposit text not null default 'none'::text -- personal: kept
 deposit_at timestamp with time zone
 offers_unanswered integer not null default 0
 turns integer not null default 0
 revised_at timestamp with time zone
 firm_at timestamp with time zone
 undo_to text -- plain
 undo_turn integer
 undone integer[] not null default '{}'::integer[]
 constraint sign_up_anything_check CHECK ((length(anything) <= 2000))
 constraint sign_up_check CHECK (((session_id IS NOT NULL) OR (state = ANY (ARRAY['requested'::text, 'declined'::text, 'withdrawn'::text]))))
 constraint sign_up_check1 CHECK (((undo_to IS NULL) = (undo_turn IS NULL)))
 constraint sign_up_deposit_check CHECK ((deposit = ANY (ARRAY['none'::text, 'due'::text, 'received'::text])))
 constraint sign_up_message_check CHECK ((length(message) <= 2000))
 constraint sign_up_offers_unanswered_check CHECK ((offers_unanswered >= 0))
 constraint sign_up_state_check CHECK ((state = ANY (ARRAY['requested'::text, 'waiting'::text, 'offered'::text, 'signed'::text, 'attended'::text, 'did_not_come'::text, 'declined'::text, 'withdrawn'::text, 'lapsed'::text, 'released'::text, 'called_off'::text])))
 constraint sign_up_turns_check CHECK ((turns >= 0))
 constraint sign_up_undo_to_check CHECK ((undo_to = ANY (ARRAY['requested'::text, 'waiting'::text, 'signed'::text, 'withdrawn'::text])))
 constraint sign_up_undo_turn_check CHECK ((undo_turn >= 0))
 constraint sign_up_studio_id_contact_id_fkey FOREIGN KEY (studio_id, contact_id) REFERENCES contact(studio_id, contact_id)
 constraint sign_up_studio_id_follows_fkey FOREIGN KEY (studio_id, follows) REFERENCES sign_up(studio_id, sign_up_id)
 constraint sign_up_studio_id_session_id_fkey FOREIGN KEY (studio_id, session_id) REFERENCES teaching_session(studio_id, session_id)
 constraint sign_up_studio_id_template_id_fkey FOREIGN KEY (studio_id, template_id) REFERENCES teaching_template(studio_id, template_id)
 constraint sign_up_pkey PRIMARY KEY (studio_id, sign_up_id)
 CREATE INDEX sign_up_contact ON public.sign_up USING btree (studio_id, contact_id)
 CREATE INDEX sign_up_follows ON public.sign_up USING btree (studio_id, follows)
 CREATE INDEX sign_up_session ON public.sign_up USING btree (studio_id, session_id, asked_at)
 CREATE INDEX sign_up_template ON public.sign_up USING btree (studio_id, template_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select, update to plateday_app

table sitter
 studio_id uuid not null
 sitter_id uuid not null
 contact_id uuid not null
 name text not null -- personal: erased
 position integer not null
 age_band text not null default 'adult'::text -- personal: kept
 head_rest boolean not null default true
 constraint sitter_age_band_check CHECK ((age_band = ANY (ARRAY['adult'::text, '8 to 14'::text, 'under 8'::text])))
 constraint sitter_name_check CHECK (((length(name) >= 1) AND (length(name) <= 200)))
 constraint sitter_studio_id_contact_id_fkey FOREIGN KEY (studio_id, contact_id) REFERENCES contact(studio_id, contact_id) ON DELETE CASCADE
 constraint sitter_pkey PRIMARY KEY (studio_id, sitter_id)
 CREATE INDEX sitter_contact ON public.sitter USING btree (studio_id, contact_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table sitting
 studio_id uuid not null
 sitting_id uuid not null
 contact_id uuid not null
 state text not null -- personal: kept
 asked_at timestamp with time zone not null
 any_day_from date
 any_day_until date
 days date[] not null default '{}'::date[]
 hopes text not null default ''::text -- personal: emptied
 anything text not null default ''::text -- personal: emptied
 message text not null default ''::text -- personal: emptied
 decided_at timestamp with time zone
 occupancy_id uuid
 kind_id uuid
 turns integer not null default 0
 return_owed boolean not null default false
 return_of uuid
 offers_unanswered integer not null default 0
 priority_reason text not null default ''::text -- personal: emptied
 hardship_reason text not null default ''::text -- personal: emptied
 notice_days integer
 access text not null default ''::text -- personal: emptied, guarded
 brings text not null default ''::text -- personal: emptied
 minor boolean not null default false
 guardian_name text not null default ''::text -- personal: emptied
 guardian_relation text not null default ''::text -- personal: emptied
 guardian_reach text not null default ''::text -- personal: emptied
 constraint sitting_access_check CHECK ((length(access) <= 2000))
 constraint sitting_brings_check CHECK ((length(brings) <= 2000))
 constraint sitting_check1 CHECK (((any_day_from IS NULL) = (any_day_until IS NULL)))
 constraint sitting_guardian_can_be_reached CHECK (((guardian_name = ''::text) = (guardian_reach = ''::text)))
 constraint sitting_hardship_reason_check CHECK ((length(hardship_reason) <= 300))
 constraint sitting_has_its_place CHECK (((state <> ALL (ARRAY['offered'::text, 'confirmed'::text])) OR (occupancy_id IS NOT NULL)))
 constraint sitting_notice_days_check CHECK (((notice_days >= 0) AND (notice_days <= 365)))
 constraint sitting_offers_unanswered_check CHECK ((offers_unanswered >= 0))
 constraint sitting_priority_reason_check CHECK ((length(priority_reason) <= 300))
 constraint sitting_state_check CHECK ((state = ANY (ARRAY['requested'::text, 'waiting'::text, 'offered'::text, 'confirmed'::text, 'made'::text, 'came_no_plate'::text, 'did_not_come'::text, 'declined'::text, 'withdrawn'::text, 'lapsed'::text, 'released'::text, 'called_off'::text])))
 constraint sitting_suits_some_day CHECK (((any_day_from IS NOT NULL) OR (cardinality(days) >= 1)))
 constraint sitting_turns_check CHECK ((turns >= 0))
 constraint sitting_waits_without_place CHECK (((state <> ALL (ARRAY['requested'::text, 'waiting'::text, 'lapsed'::text])) OR (occupancy_id IS NULL)))
 constraint sitting_studio_id_contact_id_fkey FOREIGN KEY (studio_id, contact_id) REFERENCES contact(studio_id, contact_id)
 constraint sitting_studio_id_kind_id_fkey FOREIGN KEY (studio_id, kind_id) REFERENCES sitting_kind(studio_id, kind_id)
 constraint sitting_studio_id_occupancy_id_fkey FOREIGN KEY (studio_id, occupancy_id) REFERENCES occupancy(studio_id, occupancy_id)
 constraint sitting_studio_id_return_of_fkey FOREIGN KEY (studio_id, return_of) REFERENCES sitting(studio_id, sitting_id)
 constraint sitting_pkey PRIMARY KEY (studio_id, sitting_id)
 CREATE INDEX sitting_by_state ON public.sitting USING btree (studio_id, state, asked_at)
 CREATE INDEX sitting_contact ON public.sitting USING btree (studio_id, contact_id)
 CREATE INDEX sitting_occupancy ON public.sitting USING btree (studio_id, occupancy_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table sitting_act
 studio_id uuid not null
 act_id uuid not null
 sitting_id uuid not null
 event text not null -- plain
 turns integer not null
 before jsonb not null -- personal: row
 at timestamp with time zone not null
 who text not null -- house
 undone_at timestamp with time zone
 constraint sitting_act_event_check CHECK ((event = ANY (ARRAY['approve'::text, 'decline'::text, 'wait'::text, 'mark'::text, 'release'::text])))
 constraint sitting_act_turns_check CHECK ((turns >= 0))
 constraint sitting_act_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint sitting_act_studio_id_sitting_id_fkey FOREIGN KEY (studio_id, sitting_id) REFERENCES sitting(studio_id, sitting_id)
 constraint sitting_act_pkey PRIMARY KEY (studio_id, act_id)
 CREATE INDEX sitting_act_newest ON public.sitting_act USING btree (studio_id, sitting_id, at)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table sitting_day
 studio_id uuid not null
 sitting_id uuid not null
 arrived_at timestamp with time zone
 ended_at timestamp with time zone
 reason text not null default ''::text -- plain
 note text not null default ''::text -- personal: emptied
 return_id uuid
 set_aside boolean not null default true
 constraint sitting_day_note_check CHECK ((length(note) <= 1000))
 constraint sitting_day_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint sitting_day_studio_id_return_id_fkey FOREIGN KEY (studio_id, return_id) REFERENCES sitting(studio_id, sitting_id)
 constraint sitting_day_studio_id_sitting_id_fkey FOREIGN KEY (studio_id, sitting_id) REFERENCES sitting(studio_id, sitting_id)
 constraint sitting_day_pkey PRIMARY KEY (studio_id, sitting_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table sitting_kind
 studio_id uuid not null
 kind_id uuid not null
 position integer not null
 name text not null -- plain
 offered text not null -- plain
 first_plate_minutes integer
 plates integer not null
 fee text not null default ''::text -- plain
 deposit text not null default ''::text -- plain
 keeps_plate text not null -- plain
 weekdays integer[] not null default '{}'::integer[]
 yearly_quota integer
 constraint sitting_kind_first_plate_minutes_check CHECK (((first_plate_minutes >= 5) AND (first_plate_minutes <= 720)))
 constraint sitting_kind_keeps_plate_check CHECK ((keeps_plate = ANY (ARRAY['sitter'::text, 'studio'::text, 'series'::text])))
 constraint sitting_kind_name_check CHECK (((length(name) >= 1) AND (length(name) <= 80)))
 constraint sitting_kind_offered_check CHECK ((offered = ANY (ARRAY['public'::text, 'owner'::text, 'not any more'::text])))
 constraint sitting_kind_plates_check CHECK (((plates >= 1) AND (plates <= 6)))
 constraint sitting_kind_weekdays_check CHECK ((weekdays <@ ARRAY[1, 2, 3, 4, 5, 6, 7]))
 constraint sitting_kind_yearly_quota_check CHECK (((yearly_quota >= 0) AND (yearly_quota <= 1000)))
 constraint sitting_kind_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint sitting_kind_pkey PRIMARY KEY (studio_id, kind_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table sitting_used
 studio_id uuid not null
 sitting_id uuid not null
 lot_id uuid not null
 quantity bigint not null
 constraint sitting_used_quantity_check CHECK ((quantity > 0))
 constraint sitting_used_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint sitting_used_studio_id_lot_id_fkey FOREIGN KEY (studio_id, lot_id) REFERENCES lot(studio_id, lot_id)
 constraint sitting_used_studio_id_sitting_id_fkey FOREIGN KEY (studio_id, sitting_id) REFERENCES sitting(studio_id, sitting_id)
 constraint sitting_used_pkey PRIMARY KEY (studio_id, sitting_id, lot_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table student
 studio_id uuid not null
 student_id uuid not null
 sign_up_id uuid not null
 position integer not null
 name text not null -- personal: erased
 experience text not null -- personal: kept
 plate_size_id uuid
 brings text not null default ''::text -- personal: emptied
 gear jsonb not null default '{}'::jsonb -- personal: emptied
 access text not null default ''::text -- personal: emptied, guarded
 emergency_name text not null default ''::text -- personal: emptied, guarded
 emergency_telephone text not null default ''::text -- personal: emptied, guarded
 safety_version integer
 safety_at timestamp with time zone
 constraint student_access_check CHECK ((length(access) <= 2000))
 constraint student_brings_check CHECK ((length(brings) <= 2000))
 constraint student_check CHECK (((safety_version IS NULL) = (safety_at IS NULL)))
 constraint student_emergency_name_check CHECK ((length(emergency_name) <= 200))
 constraint student_emergency_telephone_check CHECK ((length(emergency_telephone) <= 40))
 constraint student_experience_check CHECK ((experience = ANY (ARRAY['none'::text, 'some'::text, 'practised'::text])))
 constraint student_name_check CHECK (((length(name) >= 1) AND (length(name) <= 200)))
 constraint student_studio_id_plate_size_id_fkey FOREIGN KEY (studio_id, plate_size_id) REFERENCES plate_size(studio_id, plate_size_id)
 constraint student_studio_id_sign_up_id_fkey FOREIGN KEY (studio_id, sign_up_id) REFERENCES sign_up(studio_id, sign_up_id)
 constraint student_pkey PRIMARY KEY (studio_id, student_id)
 CREATE INDEX student_plate_size ON public.student USING btree (studio_id, plate_size_id)
 CREATE INDEX student_sign_up ON public.student USING btree (studio_id, sign_up_id, "position")
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select, update to plateday_app

table studio
 studio_id uuid not null
 name text not null -- plain
 welcome text not null default ''::text -- plain
 address text not null default ''::text -- plain
 email text not null -- house
 telephone text not null default ''::text -- house
 zone text not null -- plain
 latitude double precision not null
 longitude double precision not null
 window_kind text not null -- plain
 light_floor_degrees double precision not null
 reference_seconds double precision not null
 reference_altitude_degrees double precision not null
 exposure_cap_seconds double precision not null
 horizon_months integer not null
 least_notice_days integer not null
 reserve_quantity text not null -- plain
 calendar_counter bigint not null default 0
 created_at timestamp with time zone not null
 calendar_raised_at timestamp with time zone
 constraint studio_exposure_cap_seconds_check CHECK ((exposure_cap_seconds > (0)::double precision))
 constraint studio_horizon_months_check CHECK (((horizon_months >= 1) AND (horizon_months <= 24)))
 constraint studio_latitude_check CHECK (((latitude >= ('-90'::integer)::double precision) AND (latitude <= (90)::double precision)))
 constraint studio_least_notice_days_check CHECK (((least_notice_days >= 0) AND (least_notice_days <= 365)))
 constraint studio_light_floor_degrees_check CHECK (((light_floor_degrees >= (0)::double precision) AND (light_floor_degrees <= (60)::double precision)))
 constraint studio_longitude_check CHECK (((longitude >= ('-180'::integer)::double precision) AND (longitude <= (180)::double precision)))
 constraint studio_name_check CHECK (((length(name) >= 1) AND (length(name) <= 120)))
 constraint studio_reference_altitude_degrees_check CHECK (((reference_altitude_degrees >= (1)::double precision) AND (reference_altitude_degrees <= (90)::double precision)))
 constraint studio_reference_seconds_check CHECK ((reference_seconds > (0)::double precision))
 constraint studio_reserve_quantity_check CHECK ((reserve_quantity = ANY (ARRAY['likely'::text, 'ninety'::text])))
 constraint studio_window_kind_check CHECK ((window_kind = ANY (ARRAY['north window'::text, 'open shade'::text, 'glass room'::text])))
 constraint studio_pkey PRIMARY KEY (studio_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table studio_day
 studio_id uuid not null
 day date not null
 day_id uuid not null
 room_temperature numeric(4,1)
 humidity integer
 note text not null default ''::text -- words
 tests_typed boolean not null default false
 constraint studio_day_humidity_check CHECK (((humidity >= 0) AND (humidity <= 100)))
 constraint studio_day_note_check CHECK ((length(note) <= 1000))
 constraint studio_day_room_temperature_check CHECK (((room_temperature >= ('-20'::integer)::numeric) AND (room_temperature <= (50)::numeric)))
 constraint studio_day_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint studio_day_pkey PRIMARY KEY (studio_id, day)
 constraint studio_day_studio_id_day_id_key UNIQUE (studio_id, day_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table studio_directory
 slug text not null -- plain
 studio_id uuid not null
 is_current boolean not null
 constraint studio_directory_slug_check CHECK (((slug ~ '^[a-z0-9](-?[a-z0-9]+)*$'::text) AND (length(slug) <= 60)))
 constraint studio_directory_pkey PRIMARY KEY (slug)
 CREATE UNIQUE INDEX studio_directory_current ON public.studio_directory USING btree (studio_id) WHERE is_current
 row security, forced
 policy read_all permissive for r to public using true with check -
 policy write_own permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table supplier
 studio_id uuid not null
 supplier_id uuid not null
 name text not null -- house
 contact text not null default ''::text -- house
 lead_days integer
 note text not null default ''::text -- words
 constraint supplier_lead_days_check CHECK (((lead_days >= 0) AND (lead_days <= 730)))
 constraint supplier_name_check CHECK (((length(name) >= 1) AND (length(name) <= 120)))
 constraint supplier_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint supplier_pkey PRIMARY KEY (studio_id, supplier_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table teaching_session
 studio_id uuid not null
 session_id uuid not null
 template_id uuid not null
 course jsonb not null -- plain
 state text not null -- plain
 occupancy_id uuid not null
 places integer not null
 taken integer not null default 0
 least integer not null
 decide_on date not null
 private boolean not null default false
 second_adult text not null default ''::text -- words
 made_at timestamp with time zone not null
 goes_ahead_at timestamp with time zone
 sequence integer not null default 0
 revised_at timestamp with time zone
 opened_at timestamp with time zone
 freed_at timestamp with time zone
 constraint teaching_session_check CHECK (("least" <= places))
 constraint teaching_session_least_check CHECK (("least" >= 1))
 constraint teaching_session_never_overfull CHECK (((taken >= 0) AND (taken <= places)))
 constraint teaching_session_places_check CHECK (((places >= 1) AND (places <= 40)))
 constraint teaching_session_second_adult_check CHECK ((length(second_adult) <= 200))
 constraint teaching_session_sequence_check CHECK ((sequence >= 0))
 constraint teaching_session_state_check CHECK ((state = ANY (ARRAY['draft'::text, 'open'::text, 'full'::text, 'run'::text, 'called_off'::text])))
 constraint teaching_session_studio_id_occupancy_id_fkey FOREIGN KEY (studio_id, occupancy_id) REFERENCES occupancy(studio_id, occupancy_id)
 constraint teaching_session_studio_id_template_id_fkey FOREIGN KEY (studio_id, template_id) REFERENCES teaching_template(studio_id, template_id)
 constraint teaching_session_pkey PRIMARY KEY (studio_id, session_id)
 CREATE INDEX teaching_session_occupancy ON public.teaching_session USING btree (studio_id, occupancy_id)
 CREATE INDEX teaching_session_template ON public.teaching_session USING btree (studio_id, template_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table teaching_template
 studio_id uuid not null
 template_id uuid not null
 course jsonb not null -- plain
 archived boolean not null default false
 made_at timestamp with time zone not null
 constraint teaching_template_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint teaching_template_pkey PRIMARY KEY (studio_id, template_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table teaching_turns
 studio_id uuid not null
 session_id uuid not null
 basis text not null -- plain
 bench jsonb not null -- plain
 rota jsonb not null -- plain
 meanwhile jsonb not null -- plain
 revision integer not null
 kept_at timestamp with time zone not null
 changed_at timestamp with time zone not null
 constraint teaching_turns_revision_check CHECK ((revision >= 1))
 constraint teaching_turns_studio_id_session_id_fkey FOREIGN KEY (studio_id, session_id) REFERENCES teaching_session(studio_id, session_id)
 constraint teaching_turns_pkey PRIMARY KEY (studio_id, session_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select, update to plateday_app

table voucher
 studio_id uuid not null
 voucher_id uuid not null
 number text not null -- plain
 buyer text not null -- personal: erased, of another
 buyer_reach text not null default ''::text -- personal: emptied, of another
 for_whom text not null default ''::text -- personal: emptied
 worth text not null default ''::text -- plain
 valid_until date
 surprise boolean not null
 told_at timestamp with time zone
 sitting_id uuid
 used_on date
 made_at timestamp with time zone not null
 constraint voucher_buyer_check CHECK (((length(buyer) >= 1) AND (length(buyer) <= 200)))
 constraint voucher_buyer_reach_check CHECK ((length(buyer_reach) <= 254))
 constraint voucher_for_whom_check CHECK ((length(for_whom) <= 200))
 constraint voucher_number_check CHECK (((length(number) >= 1) AND (length(number) <= 20)))
 constraint voucher_told_of_a_surprise CHECK ((surprise OR (told_at IS NULL)))
 constraint voucher_used_on_something CHECK (((sitting_id IS NULL) = (used_on IS NULL)))
 constraint voucher_worth_check CHECK ((length(worth) <= 200))
 constraint voucher_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint voucher_studio_id_sitting_id_fkey FOREIGN KEY (studio_id, sitting_id) REFERENCES sitting(studio_id, sitting_id)
 constraint voucher_pkey PRIMARY KEY (studio_id, voucher_id)
 constraint voucher_number UNIQUE (studio_id, number)
 CREATE INDEX voucher_sitting ON public.voucher USING btree (studio_id, sitting_id) WHERE (sitting_id IS NOT NULL)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant delete, insert, select, update to plateday_app

table waiting_rules
 studio_id uuid not null
 mode text not null -- plain
 points_asked integer not null
 points_flexible integer not null
 points_far integer not null
 points_series integer not null
 points_priority integer not null
 points_hardship integer not null
 most_unanswered integer not null
 far_weeks integer not null
 far_days integer not null
 near_weeks integer not null
 middle_days integer not null
 telephone_days integer not null
 ends_at_hour integer not null
 notice_near integer not null
 notice_day integer not null
 notice_night integer not null
 notice_flight integer not null
 constraint waiting_rules_check CHECK ((near_weeks <= far_weeks))
 constraint waiting_rules_ends_at_hour_check CHECK (((ends_at_hour >= 9) AND (ends_at_hour <= 19)))
 constraint waiting_rules_far_days_check CHECK (((far_days >= 1) AND (far_days <= 60)))
 constraint waiting_rules_far_weeks_check CHECK (((far_weeks >= 1) AND (far_weeks <= 52)))
 constraint waiting_rules_middle_days_check CHECK (((middle_days >= 1) AND (middle_days <= 60)))
 constraint waiting_rules_mode_check CHECK ((mode = ANY (ARRAY['by hand'::text, 'propose'::text, 'automatic'::text])))
 constraint waiting_rules_most_unanswered_check CHECK (((most_unanswered >= 1) AND (most_unanswered <= 10)))
 constraint waiting_rules_near_weeks_check CHECK (((near_weeks >= 0) AND (near_weeks <= 52)))
 constraint waiting_rules_notice_day_check CHECK (((notice_day >= 0) AND (notice_day <= 365)))
 constraint waiting_rules_notice_flight_check CHECK (((notice_flight >= 0) AND (notice_flight <= 365)))
 constraint waiting_rules_notice_near_check CHECK (((notice_near >= 0) AND (notice_near <= 365)))
 constraint waiting_rules_notice_night_check CHECK (((notice_night >= 0) AND (notice_night <= 365)))
 constraint waiting_rules_points_asked_check CHECK (((points_asked >= 0) AND (points_asked <= 100)))
 constraint waiting_rules_points_far_check CHECK (((points_far >= 0) AND (points_far <= 100)))
 constraint waiting_rules_points_flexible_check CHECK (((points_flexible >= 0) AND (points_flexible <= 100)))
 constraint waiting_rules_points_hardship_check CHECK (((points_hardship >= 0) AND (points_hardship <= 100)))
 constraint waiting_rules_points_priority_check CHECK (((points_priority >= 0) AND (points_priority <= 100)))
 constraint waiting_rules_points_series_check CHECK (((points_series >= 0) AND (points_series <= 100)))
 constraint waiting_rules_telephone_days_check CHECK (((telephone_days >= 1) AND (telephone_days <= 14)))
 constraint waiting_rules_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint waiting_rules_pkey PRIMARY KEY (studio_id)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select, update to plateday_app

table wording
 studio_id uuid not null
 purpose text not null -- plain
 version integer not null
 words text not null -- plain
 since timestamp with time zone not null
 who text not null -- house
 constraint wording_purpose_check CHECK ((purpose = ANY (ARRAY['contact'::text, 'record'::text, 'archive'::text, 'show'::text, 'house_rules'::text])))
 constraint wording_version_check CHECK ((version >= 1))
 constraint wording_words_check CHECK ((length(words) <= 4000))
 constraint wording_studio_id_fkey FOREIGN KEY (studio_id) REFERENCES studio(studio_id)
 constraint wording_pkey PRIMARY KEY (studio_id, purpose, version)
 row security, forced
 policy own_studio permissive for * to public using (studio_id = plateday_studio()) with check (studio_id = plateday_studio())
 grant insert, select to plateday_app

CREATE OR REPLACE FUNCTION plateday_queue.enqueue(task text, payload jsonb, run_at timestamp with time zone, job_key text)
 RETURNS void
 LANGUAGE sql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  select plateday_queue.enqueue_all(array[task], array[payload], array[run_at], array[job_key]);
$function$
 owner plateday_jobs
 grant execute to plateday_app

CREATE OR REPLACE FUNCTION plateday_queue.enqueue_all(tasks text[], payloads jsonb[], run_ats timestamp with time zone[], job_keys text[])
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
 SET enable_seqscan TO 'off'
 SET plan_cache_mode TO 'force_generic_plan'
AS $function$
declare studio text := nullif(current_setting('app.studio_id', true), '');
begin
  if studio is null then raise exception 'A job needs a studio'; end if;
  perform from graphile_worker.add_jobs(array(
    select row(j.task, (j.payload || jsonb_build_object('studioId', studio))::json, null, j.run_at, 25,
      studio || ':' || j.job_key, null, null)::graphile_worker.job_spec
    from (select distinct on (one.job_key) one.* from unnest(tasks, payloads, run_ats, job_keys) with ordinality
      as one (task, payload, run_at, job_key, nth) order by one.job_key, one.nth desc) j
    order by j.nth));
end $function$
 owner plateday_jobs
 grant execute to plateday_app

CREATE OR REPLACE FUNCTION plateday_queue.forget_errors()
 RETURNS void
 LANGUAGE sql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  update graphile_worker._private_jobs set last_error = null
  where last_error is not null
    and payload->>'studioId' = (select nullif(current_setting('app.studio_id', true), ''))
$function$
 owner plateday_jobs
 grant execute to plateday_app

CREATE OR REPLACE FUNCTION plateday_queue.waiting()
 RETURNS TABLE(task text, payload jsonb, run_at timestamp with time zone, job_key text)
 LANGUAGE sql
 STABLE SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'pg_temp'
AS $function$
  select t.identifier, j.payload::jsonb - 'studioId', j.run_at, substr(j.key, length(s.studio) + 2)
  from (select nullif(current_setting('app.studio_id', true), '') as studio) s,
    graphile_worker._private_jobs j join graphile_worker._private_tasks t on t.id = j.task_id
  where j.payload->>'studioId' = s.studio and j.key like s.studio || ':%'
  order by j.run_at, j.key
$function$
 owner plateday_jobs
 grant execute to plateday_app

CREATE OR REPLACE FUNCTION public.plateday_feed_doors(address text, secret_hashes bytea[])
 RETURNS TABLE(secret_hash bytea, studio_id uuid, link_id uuid, kind text, subject_id uuid, revoked boolean, counter bigint, raised_at timestamp with time zone)
 LANGUAGE plpgsql
AS $function$
declare found uuid;
begin
  select d.studio_id into found from studio_directory d where d.slug = address;
  if found is null then return; end if;
  perform set_config('app.studio_id', found::text, true);
  return query
    select l.token_hash, l.studio_id, l.link_id, l.kind, l.subject_id, l.revoked_at is not null, s.calendar_counter,
           coalesce(s.calendar_raised_at, s.created_at)
    from link l join studio s on s.studio_id = l.studio_id
    where l.studio_id = found and l.purpose = 'feed' and l.token_hash = any (secret_hashes);
end $function$
 grant execute to plateday_app

CREATE OR REPLACE FUNCTION public.plateday_only_while_erasing()
 RETURNS trigger
 LANGUAGE plpgsql
AS $function$
begin
  if current_setting('app.erasing', true) is distinct from 'yes' then
    raise exception 'permission denied: % is only added to', tg_table_name using errcode = 'insufficient_privilege';
  end if;
  return new;
end $function$
 grant execute to public

CREATE OR REPLACE FUNCTION public.plateday_public_feed_door(address text)
 RETURNS TABLE(studio_id uuid, link_id uuid, kind text, subject_id uuid, revoked boolean, counter bigint, raised_at timestamp with time zone)
 LANGUAGE plpgsql
AS $function$
declare found uuid;
begin
  select d.studio_id into found from studio_directory d where d.slug = address;
  if found is null then return; end if;
  perform set_config('app.studio_id', found::text, true);
  return query
    select s.studio_id, s.studio_id, 'workshops'::text, s.studio_id, false, s.calendar_counter,
           coalesce(s.calendar_raised_at, s.created_at)
    from studio s where s.studio_id = found;
end $function$
 grant execute to plateday_app

CREATE OR REPLACE FUNCTION public.plateday_studio()
 RETURNS uuid
 LANGUAGE sql
 STABLE
RETURN (NULLIF(current_setting('app.studio_id'::text, true), ''::text))::uuid
 grant execute to public

CREATE OR REPLACE PROCEDURE public.plateday_tenant(IN tenant regclass, IN may text DEFAULT 'select, insert, update, delete'::text)
 LANGUAGE plpgsql
AS $procedure$
begin
  execute format('alter table %s enable row level security', tenant);
  execute format('alter table %s force row level security', tenant);
  execute format('create policy own_studio on %s using (studio_id = plateday_studio())
                  with check (studio_id = plateday_studio())', tenant);
  execute format('grant %s on %s to plateday_app', may, tenant);
end $procedure$
 grant execute to public
