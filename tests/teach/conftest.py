from tests.review.conftest import catalogue, workshop

__all__ = ["catalogue", "workshop"]
