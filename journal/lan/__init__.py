"""The shop's network: which names and addresses the machine has there, and the certificate that proves them."""
