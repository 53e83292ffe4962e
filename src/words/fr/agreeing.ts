// Not checked by a native reader.
import type { agreeing } from '../en/agreeing.js';

export const frenchAgreeing: typeof agreeing = {
  title: 'Ce que vous acceptez',
  lead: 'Chaque point est à part, et aucun n’est nécessaire pour poser. Vous pouvez en reprendre n’importe lequel ici, à tout moment. Un parent ou tuteur répond pour toute personne de moins de 18 ans. Les termes sont ceux du studio, dans sa langue.',
  yes: 'J’accepte',
  back: 'Reprendre cet accord',
  whoHears: (name) => `${name}, à qui nous écrivons`,
  purposes: {
    contact: 'Avoir encore des nouvelles du studio',
    record: 'Garder la fiche',
    archive: 'La donner à des archives',
    show: 'La montrer',
    house_rules: 'Règles de la maison',
  },
  notYet: 'Pas encore accepté.',
  given: (day, version) => `Accepté le ${day}, dans la version ${version} de ces termes.`,
  givenTo: (day, version, who) =>
    `Accepté le ${day}, de vive voix auprès de ${who}, dans la version ${version} de ces termes.`,
  takenBack: (version, given, back) =>
    `La version ${version} a été acceptée le ${given} et reprise le ${back}.`,
};
