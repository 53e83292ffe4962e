// Not checked by a native reader.
import type { ownData } from '../en/own-data.js';

export const frenchOwnData: typeof ownData = {
  title: 'Vos données',
  lead: 'Ce que vous avez dit au studio, ce qu’il vous a écrit, ce que vous avez accepté, et les plaques faites de vous.',
  take: {
    title: 'Les emporter',
    says: 'Un seul fichier avec tout, sauf ce qui vous aide ici et qui appeler, puisque d’autres peuvent voir cette page : le studio vous le donne.',
    label: 'Prendre les données',
    json: 'Télécharger en un fichier (JSON)',
    csv: 'Télécharger en tableau (CSV)',
  },
  erase: {
    title: 'Les faire effacer',
    asked: 'Vous l’avez demandé. Le studio a votre souhait et répond en moins d’un mois.',
    says: 'Le studio efface votre nom, comment vous joindre et tout ce que vous lui avez dit. Que des plaques ont été faites, avec leurs numéros, et ce qui a servi pour elles, cela reste, sans vous. Une place à venir doit d’abord être rendue. Des copies plus anciennes des registres du studio vous gardent jusqu’à ce qu’elles soient éclaircies, un an au plus ; aucune ne vous fait revenir.',
    button: 'Demander au studio d’effacer mes données',
  },
};
