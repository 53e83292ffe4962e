// What must never meet, and what happens where it does, with the source of each; and what goes before all of it.
export const meeting = {
  advice:
    'Follow the supplier’s current safety data sheet and your local codes, and ask a licensed professional where the law wants one. What stands here is a help for planning, not a label and not first aid.',
  rules: {
    'cyanide and acid': {
      effect:
        'Hydrogen cyanide gas, which kills. The developer, the silver bath and a plate not rinsed of developer are acid too.',
      source: 'SLAC, Potassium Cyanide Safe Handling Guideline, 20 May 2013',
    },
    'cyanide and oxidiser': {
      effect: 'May react violently; bleach and cyanide give a poisonous gas.',
      source: 'SLAC, Potassium Cyanide Safe Handling Guideline (nitrites, chlorates); the rest from memory',
    },
    'cyanide and light metal': {
      effect: 'Listed as incompatible: keep cyanide out of aluminium and zinc vessels.',
      source: 'ABC of Safety in the Biological Sciences, potassium cyanide',
    },
    'nitric acid and alcohol': {
      effect: 'Heat, fire and poisonous fumes; with silver in it an explosive may form.',
      source: 'from memory',
    },
    'nitric acid and peroxides': { effect: 'Fire or explosion.', source: 'from memory' },
    'silver and ammonia': {
      effect: 'Explosive silver compounds, above all when kept; never near silver waste.',
      source: 'from memory',
    },
    'bleach and acid': { effect: 'Chlorine gas.', source: 'from memory' },
    'bleach and ammonia': { effect: 'Poisonous chloramine gas.', source: 'from memory' },
    'thiosulfate and bleach': {
      effect: 'Reacts with heat; gives off poisonous gas.',
      source: 'from memory',
    },
    'thiosulfate and acid': {
      effect: 'Sulphur dioxide, and the fixer is spoiled: rinse the plate of developer first.',
      source: 'from memory',
    },
    'oxidiser and fire': {
      effect: 'The oxidiser feeds a fire: keep it apart from spirits, cotton, gums and paper.',
      source: 'Chief Medical safety data sheet M-D6-009, silver nitrate',
    },
  },
};
