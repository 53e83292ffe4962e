// How to prepare for a sitting. Beside each sentence stands where it is from; "practice" is common practice without a
// source. What depends on lens, bottle and light is told with "may". The books are cited from memory:
// [Vogel] H. Vogel, The Chemistry of Light and Photography, 1875. [Abney] W. de W. Abney, A Treatise on Photography, 1878.
// [Towler] J. Towler, The Silver Sunbeam, 1864. [Root] M. A. Root, The Camera and the Pencil, 1864.
// [Estabrooke] E. M. Estabrooke, The Ferrotype and How to Make It, 1872.
// [Pratt] H. Pratt and others, PLoS ONE 12(10), e0185297, 2017: sun cream in ultraviolet pictures.
// [CLP] Regulation (EC) 1272/2008, annex VI: diethyl ether is H224 and H336, silver nitrate H314.
import { counted } from '../../lib/words.js';

export const prepareSheet = {
  title: 'How to prepare',
  link: 'How to prepare for the day',
  lead: (studio: string): string =>
    `A plate sees otherwise than the eye and than a telephone. What to wear, how to hold still, and what happens at ${studio}.`,
  prints: 'This page can be printed.',
  back: 'Back to your page',
  place: {
    title: 'Your sitting',
    day: 'Day',
    time: 'Time',
    /** By the clock at the studio. */
    hours: (from: string, until: string, plates: number): string =>
      `${from} to ${until}, for ${counted(plates, 'plate')}`,
    where: 'Where',
    still: 'Hold still',
    /** Whole seconds, at least one. */
    seconds: (from: number, to: number, most: number): string =>
      `${from === to ? `about ${from}` : `${from} to ${to}`} seconds if the sky is clear, up to ${most} if it is dull`,
    notKnown: 'the light of that hour is low: the studio tells you on the day',
    noPlace: 'You have no place yet. Once you have one, this page tells how long you will hold still.',
  },
  parts: {
    air: {
      title: 'Air, fire and your health',
      says: {
        // [CLP] H336
        ether:
          'It smells of ether and alcohol. Ether may make sleepy or dizzy: say so, and go out for air whenever you like.',
        // [CLP] H224
        fire: 'Ether burns very easily: no smoking, no vaping and no flame in the house.',
        // practice
        speak:
          'If you have asthma or trouble with breathing, or are pregnant, please speak to the studio before you come. You need not write it anywhere.',
      },
    },
    bring: {
      title: 'What to bring',
      says: {
        // practice
        clothes: 'A second set of clothes, and a comb.',
        // practice
        thing: 'Something of yours to hold or to wear: a tool, an instrument, a letter.',
        // practice
        warm: 'Something warm: a room of glass may be cold, or hot in summer.',
        // practice
        water: 'Water, and a bite to eat after it.',
        // practice
        time: 'Time: the light may make us wait.',
      },
    },
    still: {
      title: 'Holding still',
      says: {
        // [Towler] on the head-rest; practice
        rest: 'A head rest may stand behind you. It does not hold you: lean against it lightly, and you feel when you move.',
        // practice
        seat: 'Sit well back, put your feet and hands down, and let your weight rest.',
        // practice
        eyes: 'Look at one point. Blink softly when you must: a short blink leaves no trace in a pose of several seconds. If the pose is only a second or two, blink before it.',
        // practice
        breath: 'Breathe calmly, and do not hold your breath.',
        // practice
        face: 'A quiet face holds better than a broad smile.',
        // practice
        moved: 'What moves turns soft. That may spoil a plate, or be the best of it.',
      },
    },
    colours: {
      title: 'Colours',
      says: {
        // [Vogel], [Abney] on the spectrum on iodide and bromide of silver
        sees: 'The plate sees blue, violet and ultraviolet light. Green it sees little of, yellow and red hardly at all.',
        // [Vogel], [Root]
        red: 'Red, orange, brown and yellow come out dark; red may come out black.',
        // [Vogel], [Root]
        blue: 'Blue and violet come out light; a light blue may come out white.',
        // [Root]; practice
        white:
          'A large plain white may come out as a patch without folds. Cream, grey and middle blues show more.',
        // practice
        dye: 'Two blacks may look alike to you and not to the plate: it depends on the dye. Bring two things to choose from.',
      },
    },
    cloth: {
      title: 'Clothes, cloth and patterns',
      says: {
        // [Root]; practice
        texture:
          'What can be felt can be seen: wool, linen, lace, velvet, leather and knitting come out well.',
        // follows from [Vogel]
        pattern:
          'A pattern may vanish where the plate sees its colours alike, and one that you hardly notice may stand out.',
        // practice
        small: 'Very small patterns may run together into grey.',
        // practice
        comfort: 'Wear what you can sit in for an hour, and what may get a stain.',
        // [CLP]: silver nitrate darkens whatever it touches in the light (Towler)
        stain:
          'Silver from a wet plate stains skin and cloth black, and does not wash out. Touch no plate and no holder.',
      },
    },
    skin: {
      title: 'Skin, hair and tattoos',
      says: {
        // [Vogel] tells of yellow freckles
        freckles:
          'Freckles and marks of the sun may come out much darker than you know them, and some may show that you have never seen.',
        // follows from [Vogel]
        red: 'Lips, redness and a sunburn may come out dark.',
        // practice
        tone: 'Brown and tanned skin may come out deeper than in other pictures. Light and seconds are chosen for your skin: say how you would like to look.',
        // [Vogel] tells of golden hair
        hair: 'Golden and red hair may come out dark; grey and white hair shines.',
        // follows from [Vogel]; practice
        eyes: 'Blue and grey eyes may come out very light, brown ones nearly black.',
        // practice
        tattoos:
          'Tattoos may come out fainter or stronger than they are: some inks may vanish, old ones may come back.',
      },
    },
    face: {
      title: 'Make-up and sun cream',
      says: {
        // [Pratt]
        cream:
          'Sun cream may come out dark or in patches, as may powder and day cream that keep the sun off. Use them on the way, and wash your face here.',
        // follows from [Vogel]
        colour:
          'Red on lips and cheeks may come out black. Little make-up is best, or bring what takes it off.',
      },
    },
    glasses: {
      title: 'Glasses',
      says: {
        // practice: such lenses darken in ultraviolet light
        tinting:
          'Lenses that darken by themselves may be dark on the plate, also indoors. Bring another pair if you have one.',
        // practice
        coated: 'Lenses that keep ultraviolet or blue light out may come out darker than they look.',
        // practice
        shine:
          'Glasses may mirror the window. Often a turn of the head is enough; else the plate is made without them.',
      },
    },
    mirror: {
      title: 'Left and right',
      says: {
        // [Towler], [Estabrooke]: a positive made in the camera is reversed
        reversed:
          'A plate made straight in the camera is a mirror image: what you have on your left stands on the left of the plate, as in a mirror.',
        // follows
        parting: 'You know yourself like that; others may find your parting on the other side.',
        // follows
        writing:
          'Writing, badges, buttons and the hands of a clock come out the wrong way round, and a right hand looks like a left one.',
        // practice: an ambrotype on clear glass can be backed on either side
        turned:
          'A plate on clear glass may be turned so that left and right are as they were. If that matters to you, ask before the day.',
      },
    },
    children: {
      title: 'Children',
      says: {
        // practice
        short: 'Children hold still for a shorter time than grown people, and do best in bright hours.',
        // practice
        play: 'Play statues at home: count slowly to the seconds above, and show that it is easy.',
        // practice
        company:
          'Bring somebody who does not sit, and something quiet to hold. The darkroom is not for children.',
        // practice; what the form of asking asks
        guardian: 'Somebody under 18 needs the yes of a parent or guardian.',
      },
    },
    hour: {
      title: 'What happens',
      says: {
        // practice, and the figures below: common practice, no source
        arrive: 'First you arrive, sit down and talk: about 25 minutes.',
        pose: 'Then we look for pose, light and focus: about a quarter of an hour.',
        plate:
          'Each plate is poured, made sensitive, put into the camera and developed at once: about a quarter of an hour, of which a few seconds are yours.',
        look: 'You can watch the picture come up. A plate is washed, dried and varnished afterwards, which may take days.',
        again:
          'A plate may fail: dust, fog, a movement. Then it is made again, while light and strength last. After three tries one stops.',
        dull: 'Dull weather does not call the day off: you may hold still longer, or the plate may be smaller.',
      },
    },
    access: {
      title: 'Getting in and being well',
      says: {
        // practice
        tell: 'Steps, a seat with arms, somebody who interprets, an animal that helps you, a quieter hour: tell the studio what would help you, and it is made ready.',
        // practice
        pause: 'Between plates you can rest for as long as you need, and stop at any time.',
      },
    },
  },
  help: 'Tell the studio what would help you',
  rules: 'House rules',
};
