// What the owner's own limit leaves short, as the page of orders tells it.
import { CannotBeHad } from '../../src/desk/shelf/ahead.pages.js';
import { lookAhead } from '../../src/stock/horizon.calc.js';
import { lackingOf } from '../../src/stock/mixing.calc.js';
import { text } from '../support/desk-props.js';
import { bottle, bought, needs, shelf, TODAY } from '../support/shelf-facts.js';

describe('what stays short because of what is kept at most', () => {
  it('stands in a group of its own, and is not said to be impossible', () => {
    const items = [bought('ether', { packQuantity: 10n, mostOnHand: 25n })];
    const facts = { items, lots: [bottle('ether', 4n)], needs: needs('a', 20, { ether: 40n }) };
    const lacking = lackingOf(lookAhead(shelf(facts), TODAY), false);
    const page = text(<CannotBeHad lacking={lacking} act="ordered" onTheWay={[]} />);
    expect(page).toContain('More than you keep at most');
    expect(page).toContain('ether');
    expect(page).not.toContain('Cannot be had in time');
  });
});
