// What a sitting asks of the shelf: the chemistry estimate of its plates, matched to the studio's items.
import { estimateNeeds, type SolutionKind, quantitiesToReserve } from '../chemistry/estimate.calc.js';
import type { Item, Need, PlateSize } from '../stock/stock.schemas.js';
import type { Plate } from './sittings.schemas.js';
