/** What every page gets, as one script. @module */
import './page.js';
import './guide.js';
import './offline.js';
