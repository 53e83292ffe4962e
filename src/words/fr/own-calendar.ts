// Not checked by a native reader.
import type { ownCalendar } from '../en/own-calendar.js';

export const frenchOwnCalendar: typeof ownCalendar = {
  title: 'Votre calendrier',
  lead: (studio) =>
    `Votre jour chez ${studio} dans le calendrier que vous utilisez déjà. Il se tient à jour de lui-même.`,
  done: {
    replace:
      'La nouvelle adresse figure ci-dessous. L’ancienne ne vaut plus : mettez la nouvelle sur votre téléphone.',
    journeys: 'Vos trajets figureront dans votre calendrier dès qu’il regardera de nouveau.',
    'no-journeys': 'Vos trajets quitteront votre calendrier dès qu’il regardera de nouveau.',
  },
  card: {
    title: 'Le lien de votre calendrier',
    follow: 'Mettre ceci sur mon téléphone',
    or: ', ou voir ',
    other: 'comment faire sur d’autres appareils',
    more: ' : avec une image à scanner, une adresse à copier, et votre trajet si vous voulez. Merci de garder cette adresse pour vous.',
  },
  here: 'Sur ce téléphone, cette tablette ou cet ordinateur :',
  address: 'Adresse de votre calendrier',
  picture: 'L’adresse de votre calendrier, en image à scanner',
  scan: 'La scanner avec un autre téléphone',
  point: 'Tournez l’appareil photo du téléphone vers cette image, et ouvrez ce qu’il trouve.',
  anyProgram:
    'Pour tout calendrier qui peut en suivre un autre par son adresse. Toute personne qui l’a peut lire le calendrier.',
  copy: 'Copier',
  copied: 'Copié.',
  marked: 'C’est marqué : copiez-le maintenant à la main.',
  journeys: {
    title: 'Votre trajet aussi ?',
    some: 'L’aller et le retour figurent dans votre calendrier, avec le moment où partir au plus tard.',
    none: 'L’aller et le retour peuvent figurer aussi dans votre calendrier, à l’heure de chez vous, avec le moment où partir au plus tard.',
    needed: 'Pour cela, il nous faut savoir ',
    home: 'd’où vous venez',
    label: 'Le trajet dans votre calendrier',
    take: 'Enlever mes trajets',
    add: 'Ajouter mes trajets',
  },
  replace: {
    title: 'Quelqu’un d’autre a cette adresse',
    says: 'Faites-en une nouvelle : l’ancienne s’arrête aussitôt, pour tout calendrier qui la suit. Mettez ensuite la nouvelle sur votre téléphone.',
    label: 'Une nouvelle adresse',
    button: 'Faire une nouvelle adresse',
  },
  back: 'Retour à votre page',
  steps: {
    local:
      'Ce studio ne tourne pour l’instant que sur cet ordinateur : d’autres appareils ne peuvent donc pas atteindre l’adresse.',
    which: 'Lequel est le vôtre ?',
    own: {
      title: 'Un téléphone ou une tablette avec son propre calendrier',
      says: [
        'Appuyez sur le bouton sur le téléphone même, ou scannez l’image avec son appareil photo.',
        'Il demande s’il faut s’abonner à ce calendrier, ou le suivre. Dites oui.',
        'S’il demande un compte ou un mot de passe, laissez les deux vides : l’adresse suffit.',
      ],
    },
    account: {
      title: 'Un téléphone dont le calendrier appartient à un compte de courriel',
      says: [
        'Si rien ne se passe quand vous appuyez sur le bouton, le téléphone ne peut pas suivre un calendrier de lui-même.',
        'Copiez l’adresse. Sur un ordinateur, connectez-vous à ce compte, ouvrez son calendrier, et cherchez « ajouter d’autres agendas », puis « à partir d’une adresse » ou « à partir de l’URL ». Collez-la là.',
        'Sur le téléphone, ouvrez les réglages du calendrier et activez le nouveau, pour qu’il soit montré.',
        'Ou prenez dans la boutique du téléphone un petit programme qui suit des calendriers, et donnez-lui l’adresse.',
      ],
    },
    computer: {
      title: 'Un programme de calendrier sur un ordinateur',
      says: [
        'Appuyez sur le bouton sur l’ordinateur. Si rien ne s’ouvre, copiez l’adresse.',
        'Cherchez dans le menu du programme « nouveau calendrier », puis « sur le réseau » ou « s’abonner », et collez-la.',
        'Choisissez la lecture seule. Vous pouvez aussi choisir à quel rythme il regarde.',
      ],
    },
    paper: {
      title: 'Un calendrier de papier',
      letters: 'Recopiez la lettre : elle dit le jour et l’heure.',
      sheets: 'Les feuilles du jour peuvent s’imprimer.',
    },
    know: {
      title: 'À savoir',
      follow: 'Suivez-le, ne l’importez pas. Ce qui est importé reste tel que c’était ce jour-là.',
      looks:
        'Un calendrier regarde de nouveau quand il veut : certains après une heure, d’autres une fois par jour, et personne ici ne peut le presser.',
      letterFirst: ' Quand quelque chose change, la lettre vient donc d’abord. Croyez la lettre.',
      reading: 'Il se lit seulement. Ce que vous changez dans votre calendrier n’arrive à personne.',
      ended:
        'Une fois le lien arrêté ou refait, l’ancienne adresse ne donne plus rien. Un calendrier qui la suivait montre peut-être encore ce qu’il avait ; supprimez-le là.',
    },
  },
};
