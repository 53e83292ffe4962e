// Not checked by a native reader. Where each sentence is from stands beside the English one.
import type { prepareSheet } from '../en/prepare-sheet.js';

export const frenchPrepareSheet: typeof prepareSheet = {
  title: 'Comment se préparer',
  link: 'Comment se préparer pour ce jour',
  lead: (studio) =>
    `Une plaque voit autrement que l’œil et qu’un téléphone. Que porter, comment rester immobile, et ce qui se passe chez ${studio}.`,
  prints: 'Cette page peut s’imprimer.',
  back: 'Retour à votre page',
  place: {
    title: 'Votre séance',
    day: 'Jour',
    time: 'Heure',
    hours: (from, until, plates) =>
      `de ${from} à ${until}, pour ${plates === 1 ? 'une plaque' : `${plates} plaques`}`,
    where: 'Où',
    still: 'Rester immobile',
    seconds: (from, to, most) =>
      `${from === to ? `environ ${from}` : `de ${from} à ${to}`} secondes si le ciel est clair, jusqu’à ${most} s’il est couvert`,
    notKnown: 'la lumière est faible à cette heure : le studio vous le dira le jour même',
    noPlace:
      'Vous n’avez pas encore de place. Dès que vous en aurez une, cette page dira combien de temps rester immobile.',
  },
  parts: {
    air: {
      title: 'L’air, le feu et votre santé',
      says: {
        ether:
          'Cela sent l’éther et l’alcool. L’éther peut endormir ou donner le vertige : dites-le, et sortez prendre l’air quand vous voulez.',
        fire: 'L’éther prend feu très facilement : ni tabac, ni vapotage, ni flamme dans la maison.',
        speak:
          'Si vous avez de l’asthme ou du mal à respirer, ou si vous êtes enceinte, parlez-en au studio avant de venir. Vous n’avez à l’écrire nulle part.',
      },
    },
    bring: {
      title: 'Ce qu’il faut apporter',
      says: {
        clothes: 'D’autres vêtements, et un peigne.',
        thing: 'Une chose à vous, à tenir ou à porter : un outil, un instrument, une lettre.',
        warm: 'De quoi vous couvrir : une pièce vitrée peut être froide, ou chaude en été.',
        water: 'De l’eau, et de quoi manger ensuite.',
        time: 'Du temps : la lumière peut nous faire attendre.',
      },
    },
    still: {
      title: 'Rester immobile',
      says: {
        rest: 'Un appuie-tête peut se trouver derrière vous. Il ne vous tient pas : appuyez-vous-y à peine, et vous sentez quand vous bougez.',
        seat: 'Asseyez-vous bien au fond, posez les pieds et les mains, et laissez reposer votre poids.',
        eyes: 'Regardez un seul point. Clignez doucement quand il le faut : un bref clignement ne laisse pas de trace dans une pose de plusieurs secondes. Si la pose ne dure qu’une seconde ou deux, clignez avant.',
        breath: 'Respirez calmement, sans retenir votre souffle.',
        face: 'Un visage tranquille tient mieux qu’un grand sourire.',
        moved: 'Ce qui bouge devient flou. Cela peut gâter une plaque, ou en être le meilleur.',
      },
    },
    colours: {
      title: 'Les couleurs',
      says: {
        sees: 'La plaque voit la lumière bleue, violette et ultraviolette. Du vert elle voit peu, du jaune et du rouge presque rien.',
        red: 'Le rouge, l’orange, le brun et le jaune viennent sombres ; le rouge peut venir noir.',
        blue: 'Le bleu et le violet viennent clairs ; un bleu clair peut venir blanc.',
        white:
          'Un grand blanc uni peut devenir une tache sans plis. L’écru, le gris et les bleus moyens montrent davantage.',
        dye: 'Deux noirs peuvent vous sembler pareils et ne pas l’être pour la plaque : cela dépend de la teinture. Apportez deux vêtements au choix.',
      },
    },
    cloth: {
      title: 'Vêtements, tissus et motifs',
      says: {
        texture:
          'Ce qui se sent sous les doigts se voit : la laine, le lin, la dentelle, le velours, le cuir et le tricot viennent bien.',
        pattern:
          'Un motif peut disparaître là où la plaque voit ses couleurs pareilles, et un autre, que vous remarquez à peine, peut ressortir.',
        small: 'De très petits motifs peuvent se fondre en gris.',
        comfort:
          'Portez ce dans quoi vous êtes à l’aise, assis, pendant une heure, et ce qui peut recevoir une tache.',
        stain:
          'L’argent d’une plaque humide tache la peau et le tissu en noir et ne part pas au lavage. Ne touchez ni plaque ni châssis.',
      },
    },
    skin: {
      title: 'Peau, cheveux et tatouages',
      says: {
        freckles:
          'Les taches de rousseur et les marques du soleil peuvent venir bien plus sombres que vous ne les connaissez, et il peut en apparaître que vous n’avez jamais vues.',
        red: 'Les lèvres, les rougeurs et un coup de soleil peuvent venir sombres.',
        tone: 'Une peau brune ou bronzée peut venir plus foncée que sur d’autres images. La lumière et les secondes se choisissent pour votre peau : dites comment vous aimeriez paraître.',
        hair: 'Les cheveux blonds dorés et roux peuvent venir foncés ; les cheveux gris et blancs brillent.',
        eyes: 'Les yeux bleus et gris peuvent venir très clairs, les yeux bruns presque noirs.',
        tattoos:
          'Les tatouages peuvent venir plus pâles ou plus forts qu’ils ne sont : certaines encres peuvent disparaître, d’anciennes peuvent revenir.',
      },
    },
    face: {
      title: 'Maquillage et crème solaire',
      says: {
        cream:
          'La crème solaire peut venir sombre ou en taches, tout comme la poudre et la crème de jour qui protègent du soleil. Mettez-en pour la route, et lavez-vous le visage ici.',
        colour:
          'Le rouge aux lèvres et aux joues peut venir noir. Le mieux est peu de maquillage, ou d’apporter de quoi l’enlever.',
      },
    },
    glasses: {
      title: 'Lunettes',
      says: {
        tinting:
          'Des verres qui foncent d’eux-mêmes peuvent être sombres sur la plaque, même à l’intérieur. Apportez une autre paire si vous en avez une.',
        coated:
          'Des verres qui arrêtent l’ultraviolet ou la lumière bleue peuvent venir plus sombres qu’ils ne paraissent.',
        shine:
          'Les lunettes peuvent refléter la fenêtre. Souvent il suffit de tourner un peu la tête ; sinon la plaque se fait sans elles.',
      },
    },
    mirror: {
      title: 'Gauche et droite',
      says: {
        reversed:
          'Une plaque faite directement dans la chambre est une image en miroir : ce que vous avez à gauche se trouve à gauche sur la plaque, comme dans un miroir.',
        parting:
          'C’est ainsi que vous vous connaissez ; les autres peuvent trouver votre raie de l’autre côté.',
        writing:
          'L’écriture, les insignes, les boutons et les aiguilles d’une montre viennent à l’envers, et une main droite a l’air d’une main gauche.',
        turned:
          'Une plaque de verre clair peut être retournée, pour que la gauche et la droite soient comme elles étaient. Si cela compte pour vous, demandez-le avant ce jour.',
      },
    },
    children: {
      title: 'Les enfants',
      says: {
        short:
          'Les enfants restent immobiles moins longtemps que les grandes personnes, et le mieux est une heure bien claire.',
        play: 'Jouez aux statues à la maison : comptez lentement jusqu’aux secondes indiquées plus haut, pour montrer que c’est facile.',
        company:
          'Venez avec quelqu’un qui ne pose pas, et quelque chose de calme à tenir. La chambre noire n’est pas pour les enfants.',
        guardian: 'Toute personne de moins de 18 ans a besoin de l’accord d’un parent ou tuteur.',
      },
    },
    hour: {
      title: 'Ce qui se passe',
      says: {
        arrive: 'D’abord vous arrivez, vous vous asseyez et nous parlons : environ 25 minutes.',
        pose: 'Puis nous cherchons la pose, la lumière et la mise au point : environ un quart d’heure.',
        plate:
          'Chaque plaque est coulée, sensibilisée, mise dans la chambre et développée aussitôt : environ un quart d’heure, dont quelques secondes sont à vous.',
        look: 'Vous pouvez regarder l’image apparaître. La plaque est ensuite lavée, séchée et vernie, ce qui peut prendre des jours.',
        again:
          'Une plaque peut manquer : poussière, voile, mouvement. Alors elle se refait, tant que durent la lumière et les forces. Après trois essais, on s’arrête.',
        dull: 'Un temps couvert n’annule pas ce jour : vous resterez peut-être immobile plus longtemps, ou la plaque peut être plus petite.',
      },
    },
    access: {
      title: 'Entrer et être bien',
      says: {
        tell: 'Des marches, un siège à accoudoirs, une personne qui interprète, un animal qui vous aide, une heure plus calme : dites au studio ce qui vous aiderait, et ce sera prêt.',
        pause: 'Entre les plaques vous pouvez vous reposer autant qu’il le faut, et arrêter à tout moment.',
      },
    },
  },
  help: 'Dire au studio ce qui vous aiderait',
  rules: 'Règles de la maison',
};
