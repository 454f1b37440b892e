/**
 * Parameters and priors, weighted least squares, covariance, model choice; no knowledge of guitars.
 */
package org.trebleproof.fit;
